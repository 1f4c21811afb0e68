package selvage.score;

import static org.assertj.core.api.Assertions.assertThat;
import static org.assertj.core.api.Assertions.within;

import java.nio.charset.StandardCharsets;
import java.nio.file.Files;
import java.nio.file.Path;
import java.util.ArrayList;
import java.util.LinkedHashMap;
import java.util.List;
import java.util.Map;
import java.util.Optional;
import java.util.concurrent.TimeUnit;
import org.junit.jupiter.api.Assumptions;
import org.junit.jupiter.params.ParameterizedTest;
import org.junit.jupiter.params.provider.ValueSource;
import selvage.cgats.CgatsReader;
import selvage.cgats.CgatsTable;
import selvage.color.Aim;
import selvage.color.AimSource;
import selvage.color.Lab;
import selvage.ink.InkMixture;
import selvage.measurement.Alignment;
import selvage.measurement.MatchedStrip;
import selvage.measurement.MatchedStrip.PatchReading;
import selvage.measurement.Measurement;
import selvage.measurement.MeasurementCondition;
import selvage.measurement.Reading;
import selvage.strip.BoxMm;
import selvage.strip.Coverage;
import selvage.strip.Patch;
import selvage.strip.PatchSet;
import selvage.strip.Strip;

/**
 * Published characterization data as if they were prints: scored against FOGRA39 by the program and
 * by an independent one in another language.
 */
class ChartRecheckTest {
  private static final Path PYTHON = Path.of("/usr/bin/python3");
  private static final Path CONDITIONS = Path.of("src/main/resources/conditions");

  @ParameterizedTest
  @ValueSource(strings = {"TR006", "FOGRA40L"})
  void score_wholeChart_statisticsAsAnIndependentProgramHasThem(String printed) throws Exception {
    double[] expected = independent(printed);
    ProofScore score = score(printed);
    SetScore set = score.sets().get(0);
    assertThat(set.patches()).isEqualTo((int) expected[0]);
    assertThat(set.meanDe00()).isCloseTo(expected[1], within(1e-5));
    assertThat(set.p95De00()).isCloseTo(expected[2], within(1e-5));
    assertThat(set.maxDe00()).isCloseTo(expected[3], within(1e-5));
    String[] names = {"mean", "p95", "max"};
    for (int i = 0; i < names.length; i++) {
      Check check = score.checks().get(i);
      assertThat(check.limit().name()).isEqualTo(names[i]);
      assertThat(check.value()).isCloseTo(expected[4 + i], within(1e-5));
    }
  }

  private static double[] independent(String printed) throws Exception {
    Assumptions.assumeTrue(
        Files.isExecutable(PYTHON), "skipped: the independent program needs " + PYTHON);
    Process process =
        new ProcessBuilder(
                PYTHON.toString(),
                "src/test/resources/independent/chart_statistics.py",
                CONDITIONS.resolve("FOGRA39L.ti3").toString(),
                CONDITIONS.resolve(printed + ".ti3").toString())
            .redirectErrorStream(true)
            .start();
    String text = new String(process.getInputStream().readAllBytes(), StandardCharsets.UTF_8);
    assertThat(process.waitFor(60, TimeUnit.SECONDS)).isTrue();
    Assumptions.assumeFalse(
        text.contains("No module named"), "skipped: the independent program needs numpy");
    assertThat(process.exitValue()).as(text).isZero();
    String[] words = text.strip().split(" ", -1);
    double[] values = new double[words.length];
    for (int i = 0; i < values.length; i++) {
      values[i] = Double.parseDouble(words[i]);
    }
    return values;
  }

  private static ProofScore score(String printed) throws Exception {
    Map<InkMixture, Lab> aims = chart("FOGRA39L");
    Map<InkMixture, Lab> readings = chart(printed);
    List<PatchReading> matched = new ArrayList<>();
    List<Patch> patches = new ArrayList<>();
    List<Reading> all = new ArrayList<>();
    for (Map.Entry<InkMixture, Lab> aim : aims.entrySet()) {
      int number = patches.size() + 1;
      Patch patch =
          new Patch(
              "S" + number,
              PatchSet.STANDARD,
              "chart",
              aim.getKey(),
              new Aim(aim.getValue(), AimSource.CONDITION_NODE),
              0,
              0,
              1,
              number,
              new BoxMm(10.0 * number, 0, 9, 9),
              Optional.empty(),
              Optional.empty());
      Reading reading = new Reading("S" + number, "", Map.of(), readings.get(aim.getKey()), number);
      patches.add(patch);
      all.add(reading);
      matched.add(new PatchReading(patch, reading));
    }
    Strip strip =
        new Strip(
            "KM7T-90QA",
            1,
            1,
            new Strip.Place("bottom", true, 0, 0, 600, 60, 1, false),
            new Strip.Reader("xy-table", 4.5),
            patches,
            new Coverage(0, 0, 0, 0),
            List.of());
    Measurement measurement =
        new Measurement(
            printed,
            Map.of(),
            MeasurementCondition.UNKNOWN,
            Measurement.LabOrigin.LAB,
            false,
            all,
            List.of());
    StringBuilder limits = new StringBuilder();
    for (Statistic statistic : List.of(Statistic.MEAN, Statistic.P95, Statistic.MAX)) {
      limits
          .append(limits.length() == 0 ? "" : ",")
          .append("{\"name\":\"" + statistic.word() + "\",\"set\":\"standard\",")
          .append("\"patches\":\"all\",\"role\":\"chart\",\"metric\":\"de76\",")
          .append("\"statistic\":\"" + statistic.word() + "\",")
          .append("\"limit\":2.0,\"source\":\"test\",\"mark\":\"house rule\"}");
    }
    String json =
        "{\"selvage_tolerance\":1,\"name\":\"t\",\"source\":\"test\",\"limits\":[" + limits + "]}";
    return new Scoring(ToleranceSets.parse("t", json.getBytes(StandardCharsets.UTF_8)), false)
        .score(
            new MatchedStrip(
                strip, measurement, new Alignment("by-device", 1), matched, List.of()));
  }

  /** The chart's mixtures in their order; where one stands several times, the mean. */
  private static Map<InkMixture, Lab> chart(String name) throws Exception {
    CgatsTable table = CgatsReader.read(CONDITIONS.resolve(name + ".ti3")).first();
    int[] columns = new int[7];
    String[] names = {"CMYK_C", "CMYK_M", "CMYK_Y", "CMYK_K", "LAB_L", "LAB_A", "LAB_B"};
    for (int i = 0; i < columns.length; i++) {
      columns[i] = table.column(names[i]).getAsInt();
    }
    Map<InkMixture, double[]> sums = new LinkedHashMap<>();
    for (int row = 0; row < table.rowCount(); row++) {
      double[] values = new double[7];
      for (int i = 0; i < values.length; i++) {
        values[i] = table.number(row, columns[i]);
      }
      double[] sum =
          sums.computeIfAbsent(
              InkMixture.cmyk(values[0], values[1], values[2], values[3]), key -> new double[4]);
      for (int i = 0; i < 3; i++) {
        sum[i] += values[4 + i];
      }
      sum[3]++;
    }
    Map<InkMixture, Lab> chart = new LinkedHashMap<>();
    sums.forEach(
        (mixture, sum) ->
            chart.put(mixture, new Lab(sum[0] / sum[3], sum[1] / sum[3], sum[2] / sum[3])));
    return chart;
  }
}
