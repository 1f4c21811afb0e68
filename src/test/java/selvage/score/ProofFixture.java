package selvage.score;

import java.nio.file.Path;
import java.util.ArrayList;
import java.util.List;
import java.util.Map;
import java.util.Random;
import java.util.TreeMap;
import selvage.cgats.CgatsReader;
import selvage.cgats.CgatsTable;
import selvage.color.Aim;
import selvage.color.AimModel;
import selvage.color.AimSource;
import selvage.color.Lab;
import selvage.color.ReferenceCondition;
import selvage.color.ReferenceConditions;
import selvage.color.SpotInk;
import selvage.finding.InputException;
import selvage.ink.InkMixture;
import selvage.measurement.Drift;
import selvage.measurement.LabShift;
import selvage.measurement.MatchedStrip;
import selvage.measurement.Matching;
import selvage.measurement.Measurement;
import selvage.measurement.MeasurementCondition;
import selvage.measurement.VirtualDevice;
import selvage.strip.BoxMm;
import selvage.strip.Coverage;
import selvage.strip.Patch;
import selvage.strip.PatchSet;
import selvage.strip.Strip;

/** A proof of an invented job with two spot inks: a shipped standard set and a job set. */
final class ProofFixture {
  static final List<String> INKS =
      List.of("Cyan", "Magenta", "Yellow", "Black", "Dune Red", "Night Pine");
  static final ReferenceCondition CONDITION = ReferenceConditions.defaultCondition();

  private static final Map<String, SpotInk> SPOTS =
      Map.of(
          "Dune Red",
          SpotInk.ofSolid("Dune Red", new Lab(46, 60, 40), AimSource.LIBRARY),
          "Night Pine",
          SpotInk.ofSolid("Night Pine", new Lab(35, -25, -5), AimSource.LIBRARY));

  private static final List<Map<String, Double>> JOB =
      List.of(
          Map.of("Dune Red", 100.0),
          Map.of("Dune Red", 60.0),
          Map.of("Dune Red", 30.0),
          Map.of("Night Pine", 100.0),
          Map.of("Night Pine", 50.0),
          Map.of("Night Pine", 25.0),
          Map.of("Dune Red", 80.0, "Black", 20.0),
          Map.of("Night Pine", 70.0, "Yellow", 30.0),
          Map.of("Dune Red", 40.0, "Night Pine", 40.0),
          Map.of("Cyan", 62.0, "Magenta", 18.0, "Yellow", 7.0),
          Map.of("Cyan", 12.0, "Magenta", 55.0, "Yellow", 60.0),
          Map.of("Cyan", 5.0, "Magenta", 25.0, "Yellow", 33.0),
          Map.of("Cyan", 75.0, "Magenta", 68.0, "Yellow", 67.0, "Black", 90.0),
          Map.of("Cyan", 85.0, "Magenta", 50.0),
          Map.of("Magenta", 35.0, "Yellow", 80.0),
          Map.of("Cyan", 45.0, "Yellow", 75.0, "Black", 10.0),
          Map.of("Black", 70.0),
          Map.of("Cyan", 30.0, "Magenta", 22.0, "Yellow", 22.0, "Black", 35.0));

  private ProofFixture() {}

  /** A strip with the shipped standard set of this name. */
  static Strip strip(String standard) {
    return strip(standard, 0);
  }

  /**
   * A strip with the shipped standard set of this name.
   *
   * @param more further job patches of process inks
   */
  static Strip strip(String standard, int more) {
    AimModel aims = new AimModel(CONDITION, SPOTS);
    List<Patch> patches = new ArrayList<>();
    for (Map<String, Double> inks : JOB) {
      InkMixture mixture = InkMixture.ofPercents(inks);
      String role = inks.size() > 1 ? "flat" : mixture.hasSpot() ? "spot" : "tint";
      add(patches, PatchSet.JOB, role, mixture, aims.aim(mixture));
    }
    for (int i = 0; i < more; i++) {
      InkMixture mixture = InkMixture.cmyk(8 * i, 70 - 6 * i, 15 + 5 * i, 3 * i);
      add(patches, PatchSet.JOB, "flat", mixture, aims.aim(mixture));
    }
    try {
      CgatsTable table = CgatsReader.read(Path.of("strips/standard/" + standard + ".txt")).first();
      for (int row = 0; row < table.rowCount(); row++) {
        double[] cmyk = new double[4];
        for (int i = 0; i < 4; i++) {
          cmyk[i] = table.number(row, table.column("CMYK_" + "CMYK".charAt(i)).getAsInt());
        }
        InkMixture mixture = InkMixture.cmyk(cmyk[0], cmyk[1], cmyk[2], cmyk[3]);
        String role = table.text(row, table.column("ROLE").getAsInt());
        add(patches, PatchSet.STANDARD, role, mixture, aims.aim(mixture));
      }
    } catch (InputException e) {
      throw new IllegalStateException(e);
    }
    return new Strip(
        "KM7T-90QA",
        1,
        1,
        new Strip.Place("bottom", true, 0, 0, 600, 60, 1, false),
        new Strip.Reader("handheld-spot", 4.5),
        patches,
        new Coverage(90, 95, 0.5, 40),
        List.of());
  }

  private static void add(
      List<Patch> patches, PatchSet set, String role, InkMixture mixture, Aim aim) {
    int number = patches.size() + 1;
    patches.add(
        new Patch(
            (set == PatchSet.JOB ? "J" : "S") + number,
            set,
            role,
            mixture,
            aim,
            set == PatchSet.JOB ? 100.0 / JOB.size() : 0,
            set == PatchSet.JOB ? 100.0 / JOB.size() : 0,
            1,
            number,
            new BoxMm(10.0 * number, 0, 9, 9),
            java.util.Optional.empty(),
            java.util.Optional.empty()));
  }

  /** A strip printed and read by the virtual device. */
  static MatchedStrip read(Strip strip, VirtualDevice device) {
    try {
      return Matching.match(
          strip,
          new Measurement(
              "m.txt",
              Map.of(),
              MeasurementCondition.UNKNOWN,
              Measurement.LabOrigin.LAB,
              true,
              device.read(strip),
              List.of()),
          false);
    } catch (InputException e) {
      throw new IllegalStateException(e);
    }
  }

  static VirtualDevice device(Strip strip, Drift drift) {
    return VirtualDevice.of(CONDITION, List.of(strip), drift);
  }

  /**
   * A drift by chance: tone of each ink with chance one half up to ± 8 %, density of each up to ±
   * 10 %, the paper with chance one third.
   */
  static Drift chance(Random random, double noise) {
    Map<String, Double> tone = new TreeMap<>();
    Map<String, Double> density = new TreeMap<>();
    for (String ink : INKS) {
      if (random.nextBoolean()) {
        tone.put(ink, 16 * random.nextDouble() - 8);
      }
      if (random.nextBoolean()) {
        density.put(ink, 20 * random.nextDouble() - 10);
      }
    }
    LabShift paper =
        random.nextInt(3) == 0
            ? new LabShift(
                -2 * random.nextDouble(), random.nextGaussian() / 2, random.nextGaussian())
            : LabShift.NONE;
    return new Drift(tone, density, paper, Map.of(), LabShift.NONE, noise, random.nextLong());
  }
}
