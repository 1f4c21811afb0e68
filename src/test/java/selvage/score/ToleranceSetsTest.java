package selvage.score;

import static org.assertj.core.api.Assertions.assertThat;
import static org.assertj.core.api.Assertions.assertThatThrownBy;

import java.io.IOException;
import java.nio.charset.StandardCharsets;
import java.nio.file.Files;
import java.nio.file.Path;
import java.util.ArrayList;
import java.util.List;
import java.util.stream.Stream;
import org.junit.jupiter.api.Test;
import org.junit.jupiter.api.io.TempDir;
import org.junit.jupiter.params.ParameterizedTest;
import org.junit.jupiter.params.provider.CsvFileSource;
import org.junit.jupiter.params.provider.CsvSource;
import selvage.finding.InputException;

class ToleranceSetsTest {
  private static final String OWN =
      """
      {"selvage_tolerance": 1, "name": "ours", "source": "house", "guard_band": 0.2, "limits": [
        {"name": "mean", "set": "job", "patches": "all", "metric": "de00", "statistic": "mean",
         "limit": 2.0, "source": "house", "mark": "house rule"},
        {"name": "max", "set": "standard", "patches": "substrate", "metric": "dl",
         "statistic": "max", "limit": 3.5, "guard_band": 0, "least": 2, "source": "house",
         "mark": "house rule"}]}
      """;

  @ParameterizedTest
  @CsvFileSource(resources = "/reference/iso-12647-7-2016.csv", useHeadersInDisplayName = true)
  void resolve_edition2016_publishedLimits(
      String name, String metric, String statistic, double limit) throws InputException {
    assertLimit(limit("iso-12647-7-2016", name), metric, statistic, limit);
  }

  @ParameterizedTest
  @CsvFileSource(resources = "/reference/iso-12647-7-2007.csv", useHeadersInDisplayName = true)
  void resolve_edition2007_publishedLimits(
      String name, String metric, String statistic, double limit) throws InputException {
    assertLimit(limit("iso-12647-7-2007-de76", name), metric, statistic, limit);
  }

  private static Limit limit(String set, String name) throws InputException {
    return ToleranceSets.resolve(set).limits().stream()
        .filter(limit -> limit.name().equals(name))
        .findFirst()
        .orElseThrow();
  }

  private static void assertLimit(Limit limit, String metric, String statistic, double value) {
    assertThat(limit.metric().word()).isEqualTo(metric);
    assertThat(limit.statistic().word()).isEqualTo(statistic);
    assertThat(limit.limit()).isEqualTo(value);
    assertThat(limit.guardBand()).isZero();
    assertThat(limit.mark()).isIn("quoted", "seen");
  }

  @Test
  void builtIn_everyFileInTheFolder_nameAndSourceStated() throws Exception {
    List<String> names = new ArrayList<>();
    try (Stream<Path> files = Files.list(Path.of("strips/tolerances"))) {
      files.map(file -> file.getFileName().toString().replace(".json", "")).forEach(names::add);
    }
    assertThat(ToleranceSets.BUILT_IN).containsExactlyInAnyOrderElementsOf(names);
    for (String name : names) {
      ToleranceSet set = ToleranceSets.resolve(name);
      assertThat(set.name()).isEqualTo(name);
      for (Limit limit : set.limits()) {
        if (limit.set() == selvage.strip.PatchSet.JOB && limit.patches() == PatchChoice.ALL) {
          assertThat(limit.mark()).isEqualTo("house rule, no published limit");
        }
      }
    }
  }

  @Test
  void resolve_file_readsGuardBands(@TempDir Path folder) throws InputException, IOException {
    Path file = folder.resolve("ours.json");
    Files.writeString(file, OWN);
    ToleranceSet set = ToleranceSets.resolve(file.toString());
    assertThat(set.limits()).extracting(Limit::guardBand).containsExactly(0.2, 0.0);
    assertThat(set.limits()).extracting(Limit::least).containsExactly(1, 2);
  }

  @Test
  void resolve_unknownName_refusedWithTheNames() {
    assertThatThrownBy(() -> ToleranceSets.resolve("iso-12647-8"))
        .isInstanceOf(InputException.class)
        .hasMessageContaining("iso-12647-7-2016, iso-12647-7-2007-de76");
  }

  @ParameterizedTest
  @CsvSource(
      delimiter = '|',
      quoteCharacter = '`',
      value = {
        "\"limit\": 2.0 | \"limt\": 2.0 | limits[0].limt",
        "\"limit\": 2.0 | \"limit\": \"2\" | limits[0].limit: expected a number",
        "\"limit\": 2.0 | \"limit\": 0.1 | mean: limit 0.1, guard band 0.2",
        "\"limit\": 3.5 | \"limit\": -1 | limit -1.0",
        "\"mean\", \"set\" | \"max\", \"set\" | two limits of the name max",
        "\"de00\" | \"de2000\" | limits[0].metric: expected one of de00, de76",
        "\"job\" | \"jobs\" | limits[0].set: expected one of job, standard",
        "\"statistic\": \"max\" | \"statistic\": \"area-mean\" | only job patches",
        "\"selvage_tolerance\": 1 | \"selvage_tolerance\": 2 | selvage_tolerance",
        "\"name\": \"ours\" | \"name\": 3 | name: expected a text, found 3",
        "\"name\": \"ours\", | `` | name: expected a text, found nothing",
        "\"name\": \"ours\" | \"naem\": 1, \"name\": \"ours\" | naem: is no key",
        "\"name\": \"mean\" | \"name\": \"mean\" x | t.json:2: JSON",
        "\"guard_band\": 0.2 | \"guard_band\": 0.2, \"guard_band\": 0 | JSON",
        "]} | ] | JSON"
      })
  void parse_fault_refusedWithPlace(String before, String after, String message) {
    String text = OWN.replace(before, after);
    assertThat(text).isNotEqualTo(OWN);
    assertThatThrownBy(() -> ToleranceSets.parse("t.json", text.getBytes(StandardCharsets.UTF_8)))
        .isInstanceOf(InputException.class)
        .hasMessageStartingWith("t.json:")
        .hasMessageContaining(message)
        .hasMessageNotContaining("\n");
  }

  @Test
  void parse_empty_refused() {
    for (String text : List.of("", "[]", "null", "3", "x")) {
      assertThatThrownBy(() -> ToleranceSets.parse("t.json", text.getBytes(StandardCharsets.UTF_8)))
          .isInstanceOf(InputException.class);
    }
  }
}
