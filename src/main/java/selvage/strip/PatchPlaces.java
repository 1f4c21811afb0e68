package selvage.strip;

import java.util.ArrayList;
import java.util.Arrays;
import java.util.List;
import java.util.Optional;
import selvage.color.Lab;
import selvage.ink.InkMixture;
import selvage.survey.Census;
import selvage.survey.ColorMap;

/**
 * Finds each patch's largest connected area on the pages: of a flat mixture, the samples that have
 * exactly this mixture; of a photograph's or a shading's, those for which the patch stands and that
 * have one within ΔE00 3.
 */
final class PatchPlaces {
  private static final double MM_PER_INCH = 25.4;

  /** Finds what some patches tell of every row of a census. */
  interface Search {
    PatchReach of(Census census, List<InkMixture> mixtures, List<Lab> aims);
  }

  private final List<JobPatch> patches;
  private final Search search;
  private final long[] most; // places of the largest area so far
  private final PatchPlace[] found;
  private final List<PageShare> shares = new ArrayList<>();

  private PatchPlaces(List<JobPatch> patches, Search search) {
    this.patches = patches;
    this.search = search;
    this.most = new long[patches.size()];
    this.found = new PatchPlace[patches.size()];
  }

  /** Looks at some pages, whose areas weigh by their inked samples. */
  static PatchPlaces of(List<JobPatch> patches, List<PageColors> pages, Search search) {
    PatchPlaces places = new PatchPlaces(patches, search);
    double all = 0;
    double[] inked = new double[pages.size()];
    double[] within = new double[pages.size()];
    for (int i = 0; i < inked.length; i++) {
      within[i] = places.look(pages.get(i));
      Census census = pages.get(i).census();
      inked[i] = census.inkedPercent() / 100 * census.totalSamples();
      all += inked[i];
    }
    for (int i = 0; i < inked.length; i++) {
      if (inked[i] > 0) {
        places.shares.add(
            new PageShare(pages.get(i).page(), 100 * inked[i] / all, 100 * within[i] / inked[i]));
      }
    }
    return places;
  }

  /** Where a patch's colour was found; empty where no page has a map. */
  Optional<PatchPlace> of(int patch) {
    return Optional.ofNullable(found[patch]);
  }

  /** What the patches are worth for each page that bears ink. */
  List<PageShare> shares() {
    return shares;
  }

  /** Returns how many samples of a page lie within reach of a patch. */
  private double look(PageColors page) {
    Census census = page.census();
    PatchReach reach =
        search.of(
            census,
            patches.stream().map(JobPatch::mixture).toList(),
            patches.stream().map(patch -> patch.aim().lab()).toList());
    int[] patchOfRow = new int[census.size()];
    int[] rowOfPatch = new int[patches.size()];
    Arrays.fill(rowOfPatch, -1);
    double within = 0;
    for (int row = 0; row < patchOfRow.length; row++) {
      boolean near = !census.isPaper(row) && reach.de00(row) <= NearestPatches.REACH;
      patchOfRow[row] = near ? reach.patch(row) : -1;
      within += near ? census.samples(row) : 0;
      if (near) {
        int patch = reach.patch(row);
        if (reach.de00(row) < 0.01 && isMixture(census, row, patches.get(patch).mixture())) {
          rowOfPatch[patch] = row;
        }
      }
    }
    for (int patch = 0; patch < rowOfPatch.length; patch++) {
      int row = rowOfPatch[patch];
      if (row >= 0 && Candidates.isFlat(census, row)) {
        for (int other = 0; other < patchOfRow.length; other++) {
          patchOfRow[other] = patchOfRow[other] == patch && other != row ? -1 : patchOfRow[other];
        }
      }
    }
    census.map().ifPresent(map -> place(page, map, patchOfRow, rowOfPatch));
    return within;
  }

  private static boolean isMixture(Census census, int row, InkMixture mixture) {
    return census.mixture(row).equals(mixture);
  }

  private void place(PageColors page, ColorMap map, int[] patchOfRow, int[] rowOfPatch) {
    // A finer map gives the same places as a usual one.
    int stride = Math.max(1, ColorMap.DEFAULT_STEP / map.step());
    int columns = (map.columns() + stride - 1) / stride;
    int lines = (map.lines() + stride - 1) / stride;
    int[] owner = new int[columns * lines];
    for (int at = 0; at < owner.length; at++) {
      owner[at] = patchOfRow[map.rowAt(at % columns * stride, at / columns * stride)];
    }
    int[] stack = new int[owner.length];
    for (int start = 0; start < owner.length; start++) {
      if (owner[start] >= 0) {
        takeArea(page, map, stride * map.step(), owner, stack, start);
      }
    }
    for (int patch = 0; patch < found.length; patch++) {
      int row = rowOfPatch[patch];
      if (found[patch] == null && row >= 0) {
        int column = map.firstColumn(row);
        int line = map.firstLine(row);
        found[patch] = placeOf(page, map, column, line, column + 1, line + 1);
      }
    }
  }

  /**
   * Marks the connected area of a place as seen, and keeps its box if it is the largest yet.
   *
   * @param step samples from one place to the next
   */
  private void takeArea(
      PageColors page, ColorMap map, int step, int[] owner, int[] stack, int start) {
    int columns = (map.width() + step - 1) / step;
    int patch = owner[start];
    int left = Integer.MAX_VALUE;
    int right = 0;
    int top = Integer.MAX_VALUE;
    int bottom = 0;
    int size = 0;
    long count = 0;
    stack[size++] = start;
    owner[start] = -1;
    while (size > 0) {
      int at = stack[--size];
      int column = at % columns;
      int line = at / columns;
      count++;
      left = Math.min(left, column);
      right = Math.max(right, column);
      top = Math.min(top, line);
      bottom = Math.max(bottom, line);
      int[] besides = {
        column > 0 ? at - 1 : at,
        column + 1 < columns ? at + 1 : at,
        line > 0 ? at - columns : at,
        at + columns < owner.length ? at + columns : at
      };
      for (int beside : besides) {
        if (owner[beside] == patch) {
          owner[beside] = -1;
          stack[size++] = beside;
        }
      }
    }
    if (count > most[patch]) {
      most[patch] = count;
      found[patch] =
          placeOf(
              page,
              map,
              left * step,
              top * step,
              Math.min(map.width(), (right + 1) * step),
              Math.min(map.height(), (bottom + 1) * step));
    }
  }

  private static PatchPlace placeOf(
      PageColors page, ColorMap map, int left, int top, int right, int bottom) {
    double mm = MM_PER_INCH / page.dpi();
    return new PatchPlace(
        page.page(),
        new BoxMm(
            left * mm, (map.height() - bottom) * mm, (right - left) * mm, (bottom - top) * mm));
  }
}
