package selvage.measurement;

import static org.assertj.core.api.Assertions.assertThat;

import java.util.ArrayList;
import java.util.Collections;
import java.util.HashMap;
import java.util.HashSet;
import java.util.List;
import java.util.Locale;
import java.util.Map;
import java.util.Optional;
import java.util.Random;
import java.util.Set;
import java.util.TreeMap;
import org.junit.jupiter.api.Tag;
import org.junit.jupiter.api.Test;
import selvage.color.AimModel;
import selvage.color.AimSource;
import selvage.color.Lab;
import selvage.color.ReferenceCondition;
import selvage.color.ReferenceConditions;
import selvage.color.SpotInk;
import selvage.finding.InputException;
import selvage.ink.InkMixture;
import selvage.strip.BoxMm;
import selvage.strip.Coverage;
import selvage.strip.OrderedRows;
import selvage.strip.Patch;
import selvage.strip.PatchSet;
import selvage.strip.Strip;

/**
 * Readings without ids of rehearsed proofs, spoilt as people spoil them: strip or rows read
 * backwards, serpentine, a row twice, patches twice or missed, with noise and drift. What is
 * accepted has to be right; of what can be told, 95 % has to be accepted. Run with {@code
 * -Drehearsals=200} for the number of the acceptance test.
 */
class RehearsedReadingsTest {
  private static final int RUNS = Integer.getInteger("rehearsals", 40);
  private static final ReferenceCondition CONDITION = ReferenceConditions.defaultCondition();

  /** ΔE*ab between noisy readings of the same inks, five times the greatest noise. */
  private static final double SAME_INKS_APART = 7.5;

  /** A reading and the printed patch that it is of. */
  private record True(Reading reading, int patch) {}

  @Tag("long")
  @Test
  void match_spoiltReadings_neverWrongAndMostlyRecovered() throws InputException {
    int wrong = 0;
    int recovered = 0;
    StringBuilder refused = new StringBuilder();
    for (int seed = 1; seed <= RUNS; seed++) {
      Random random = new Random(7919L * seed);
      Strip strip = strip(random);
      List<SheetPatch> sheet = SheetPatch.of(strip);
      StringBuilder story = new StringBuilder();
      List<True> readings = spoilt(sheet, read(strip, random, seed), random, story);
      Measurement measurement = measurement(readings);
      try {
        MatchedStrip matched = Matching.match(strip, measurement, true);
        if (isRight(matched, sheet, readings)) {
          recovered++;
        } else {
          wrong++;
          refused.append(seed).append(" WRONG").append(story).append("; ");
        }
      } catch (InputException e) {
        refused.append(seed).append(story).append("; ");
      }
    }
    assertThat(wrong).as("wrong matches: %s", refused).isZero();
    assertThat(recovered).as("refused: %s", refused).isGreaterThanOrEqualTo(RUNS * 95 / 100);
  }

  @Tag("long")
  @Test
  void match_readingsOfAnotherStrip_refused() throws InputException {
    for (int seed = 1; seed <= RUNS; seed++) {
      Random random = new Random(104_729L * seed);
      Strip strip = strip(random);
      Strip other = strip(random);
      Measurement measurement =
          measurement(spoilt(SheetPatch.of(other), read(other, random, seed), random, null));
      boolean accepted;
      try {
        Matching.match(strip, measurement, true);
        accepted = true;
      } catch (InputException e) {
        accepted = false;
      }
      assertThat(accepted).as("seed %d", seed).isFalse();
    }
  }

  /** Paper stands in every row: which of two neighbours a reading is of does not matter. */
  private static boolean isRepeated(Patch patch, List<SheetPatch> sheet) {
    return sheet.stream().filter(one -> one.mixture().equals(patch.mixture())).count() > 1;
  }

  private static boolean isRight(
      MatchedStrip matched, List<SheetPatch> sheet, List<True> readings) {
    Map<String, double[]> sums = new HashMap<>();
    for (True one : readings) {
      double[] sum = sums.computeIfAbsent(sheet.get(one.patch()).first().id(), id -> new double[4]);
      sum[0] += one.reading().lab().l();
      sum[1] += one.reading().lab().a();
      sum[2] += one.reading().lab().b();
      sum[3]++;
    }
    Set<String> found = new HashSet<>();
    for (MatchedStrip.PatchReading one : matched.readings()) {
      double[] sum = sums.get(one.patch().id());
      found.add(one.patch().id());
      if (sum == null) {
        return false;
      }
      Lab lab = one.reading().lab();
      double off =
          Math.hypot(
              Math.hypot(lab.l() - sum[0] / sum[3], lab.a() - sum[1] / sum[3]),
              lab.b() - sum[2] / sum[3]);
      if (off > (isRepeated(one.patch(), sheet) ? SAME_INKS_APART : 1e-6)) {
        return false;
      }
    }
    return found.equals(sums.keySet());
  }

  /** Four in ten standard colours, the rest of an invented job with a spot; rows of eight to 24. */
  private static Strip strip(Random random) {
    int patches = 24 + random.nextInt(47);
    int rows = Math.max(1, patches / (8 + random.nextInt(17)));
    List<InkMixture> mixtures = new ArrayList<>();
    for (int row = 0; row < rows; row++) {
      mixtures.add(InkMixture.PAPER);
    }
    String[] process = {"Cyan", "Magenta", "Yellow", "Black"};
    double[] steps = {0, 20, 40, 70, 100};
    Set<InkMixture> seen = new HashSet<>();
    while (mixtures.size() < patches) {
      Map<String, Double> inks = new HashMap<>();
      if (random.nextInt(8) == 0) {
        inks.put("Dune Red", 20.0 + 10 * random.nextInt(9));
      } else {
        for (String ink : process) {
          double tint = random.nextBoolean() ? 0 : steps[random.nextInt(5)];
          inks.put(ink, ink.equals("Black") ? tint / 2 : tint);
        }
      }
      InkMixture mixture = InkMixture.ofPercents(inks);
      if (!mixture.isPaper() && seen.add(mixture)) {
        mixtures.add(mixture);
      }
    }
    SpotInk spot =
        new SpotInk(
            "Dune Red", new TreeMap<>(Map.of(100.0, new Lab(46, 60, 40))), AimSource.LIBRARY);
    AimModel model = new AimModel(CONDITION, Map.of("Dune Red", spot));
    List<Lab> aims = mixtures.stream().map(one -> model.aim(one).lab()).toList();
    List<Patch> placed = new ArrayList<>();
    int row = 0;
    for (List<Integer> order : OrderedRows.of(aims, rows)) {
      row++;
      int column = 0;
      for (int index : order) {
        column++;
        placed.add(
            new Patch(
                String.format(Locale.ROOT, "J%02d", placed.size() + 1),
                PatchSet.JOB,
                "flat",
                mixtures.get(index),
                model.aim(mixtures.get(index)),
                1,
                1,
                row,
                column,
                new BoxMm(10.0 * column, 15.0 * row, 9, 9),
                Optional.empty(),
                Optional.empty()));
      }
    }
    return new Strip(
        "TEST-0001",
        1,
        1,
        new Strip.Place("bottom", true, 0, 0, 600, 60, 1, false),
        new Strip.Reader("handheld-scan", 4.5),
        placed,
        new Coverage(90, 95, 0.5, 40),
        List.of());
  }

  /** Printed with drift and read with noise of 0.2 to 1.5 ΔE*ab. */
  private static List<Reading> read(Strip strip, Random random, long seed) {
    Drift drift =
        new Drift(
            Map.of("Cyan", 8 * random.nextDouble() - 4, "Magenta", 8 * random.nextDouble() - 4),
            Map.of("Yellow", 16 * random.nextDouble() - 8, "Black", 16 * random.nextDouble() - 8),
            new LabShift(2 * random.nextDouble() - 1, 0, 4 * random.nextDouble() - 2),
            Map.of(),
            LabShift.NONE,
            0.2 + 1.3 * random.nextDouble(),
            seed);
    return VirtualDevice.of(CONDITION, List.of(strip), drift).read(strip);
  }

  private static List<True> spoilt(
      List<SheetPatch> sheet, List<Reading> readings, Random random, StringBuilder story) {
    StringBuilder said = story == null ? new StringBuilder() : story;
    Map<Integer, List<True>> rows = new TreeMap<>();
    for (int i = 0; i < readings.size(); i++) {
      rows.computeIfAbsent(sheet.get(i).first().row(), row -> new ArrayList<>())
          .add(new True(readings.get(i), i));
    }
    List<List<True>> passes = new ArrayList<>(rows.values());
    switch (random.nextInt(5)) {
      case 0 -> {
        said.append(" strip reversed");
        Collections.reverse(passes);
        passes.forEach(Collections::reverse);
      }
      case 1 -> {
        said.append(" serpentine");
        for (int i = 1; i < passes.size(); i += 2) {
          Collections.reverse(passes.get(i));
        }
      }
      case 2 -> {
        said.append(" one row reversed");
        Collections.reverse(passes.get(random.nextInt(passes.size())));
      }
      case 3 -> {
        int row = random.nextInt(passes.size());
        said.append(" row twice");
        passes.add(row, new ArrayList<>(passes.get(row)));
      }
      default -> said.append(" plain");
    }
    List<True> all = new ArrayList<>();
    passes.forEach(all::addAll);
    int doubled = random.nextInt(3);
    int missed = random.nextInt(3);
    said.append(", doubled ").append(doubled).append(", missed ").append(missed);
    for (int i = 0; i < doubled; i++) {
      int at = random.nextInt(all.size());
      all.add(at, all.get(at));
    }
    for (int i = 0; i < missed; i++) {
      all.remove(random.nextInt(all.size()));
    }
    return all;
  }

  private static Measurement measurement(List<True> readings) {
    List<Reading> numbered = new ArrayList<>();
    for (int i = 0; i < readings.size(); i++) {
      numbered.add(
          new Reading("" + (i + 1), "", Map.of(), readings.get(i).reading().lab(), 10 + i));
    }
    return new Measurement(
        "m.txt",
        Map.of(),
        MeasurementCondition.UNKNOWN,
        Measurement.LabOrigin.LAB,
        false,
        numbered,
        List.of());
  }
}
