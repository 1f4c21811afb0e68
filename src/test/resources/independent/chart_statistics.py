"""ΔE00 and ΔE76 between two characterization data sets of one chart.

Written apart from the program and in another way (vectors, angles in degrees), after
Sharma, Wu, Dalal, Color Research and Application 30(1), 2005, pages 21-30, equations 2 to 22.
Usage: chart_statistics.py AIMS.ti3 READINGS.ti3
Prints: count, ΔE00 mean, 95th percentile, maximum, ΔE76 mean, 95th percentile, maximum.
"""
import math
import sys

import numpy as np


def read(path):
    fields, rows, mode = [], {}, None
    with open(path, encoding="latin-1") as lines:
        for line in lines:
            words = line.split()
            if not words:
                continue
            if words[0] in ("BEGIN_DATA_FORMAT", "BEGIN_DATA"):
                mode = words[0]
            elif words[0].startswith("END_DATA"):
                mode = None
            elif mode == "BEGIN_DATA_FORMAT":
                fields += words
            elif mode == "BEGIN_DATA":
                row = dict(zip(fields, words))
                key = tuple(round(float(row["CMYK_" + ink]), 2) for ink in "CMYK")
                if "LAB_L" in row:
                    lab = [float(row["LAB_" + axis]) for axis in "LAB"]
                else:
                    lab = to_lab([float(row["XYZ_" + axis]) for axis in "XYZ"])
                rows.setdefault(key, []).append(lab)
    return {key: np.mean(labs, axis=0) for key, labs in rows.items()}


def to_lab(xyz):
    def f(t):
        return t ** (1 / 3) if t > (6 / 29) ** 3 else t / (3 * (6 / 29) ** 2) + 4 / 29

    x, y, z = (f(v / w) for v, w in zip(xyz, (96.422, 100.0, 82.521)))
    return [116 * y - 16, 500 * (x - y), 200 * (y - z)]


def de00(one, two):
    l1, a1, b1 = one.T
    l2, a2, b2 = two.T
    c = (np.hypot(a1, b1) + np.hypot(a2, b2)) / 2
    g = 0.5 * (1 - np.sqrt(c**7 / (c**7 + 25.0**7)))
    a1, a2 = (1 + g) * a1, (1 + g) * a2
    c1, c2 = np.hypot(a1, b1), np.hypot(a2, b2)
    h1, h2 = np.degrees(np.arctan2(b1, a1)) % 360, np.degrees(np.arctan2(b2, a2)) % 360
    grey = c1 * c2 == 0
    dh = (h2 - h1 + 180) % 360 - 180
    dh = np.where(grey, 0, dh)
    dhue = 2 * np.sqrt(c1 * c2) * np.sin(np.radians(dh / 2))
    mean_h = np.where(grey, h1 + h2, (h1 + dh / 2) % 360)
    mean_l, mean_c = (l1 + l2) / 2, (c1 + c2) / 2
    cos = lambda degrees: np.cos(np.radians(degrees))
    t = (
        1
        - 0.17 * cos(mean_h - 30)
        + 0.24 * cos(2 * mean_h)
        + 0.32 * cos(3 * mean_h + 6)
        - 0.20 * cos(4 * mean_h - 63)
    )
    sl = 1 + 0.015 * (mean_l - 50) ** 2 / np.sqrt(20 + (mean_l - 50) ** 2)
    sc = 1 + 0.045 * mean_c
    sh = 1 + 0.015 * mean_c * t
    turn = 30 * np.exp(-(((mean_h - 275) / 25) ** 2))
    rt = -np.sin(np.radians(2 * turn)) * 2 * np.sqrt(mean_c**7 / (mean_c**7 + 25.0**7))
    vl, vc, vh = (l2 - l1) / sl, (c2 - c1) / sc, dhue / sh
    return np.sqrt(vl**2 + vc**2 + vh**2 + rt * vc * vh)


def p95(values):
    return np.sort(values)[math.ceil(0.95 * len(values) - 1e-9) - 1]


aims, readings = read(sys.argv[1]), read(sys.argv[2])
keys = sorted(set(aims) & set(readings))
one = np.array([aims[key] for key in keys])
two = np.array([readings[key] for key in keys])
d00, d76 = de00(one, two), np.linalg.norm(one - two, axis=1)
print(len(keys), *(f"{f(d):.6f}" for d in (d00, d76) for f in (np.mean, p95, np.max)))
