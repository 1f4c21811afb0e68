package selvage.web;

import static org.assertj.core.api.Assertions.assertThat;

import com.fasterxml.jackson.databind.JsonNode;
import com.fasterxml.jackson.databind.ObjectMapper;
import java.net.http.HttpResponse;
import java.nio.charset.StandardCharsets;
import java.nio.file.Path;
import java.util.Optional;
import org.junit.jupiter.api.AfterAll;
import org.junit.jupiter.api.BeforeAll;
import org.junit.jupiter.api.Test;
import org.junit.jupiter.api.io.TempDir;
import org.junit.jupiter.params.ParameterizedTest;
import org.junit.jupiter.params.provider.ValueSource;
import selvage.ledger.LedgerFixture;
import selvage.measurement.LabShift;
import selvage.report.ComparisonCsv;

/** The page of the comparison, over HTTP. */
class ComparisonPagesTest {
  private static final String SYSTEM = "</script><script>alert(1)</script>";

  @TempDir static Path root;
  private static FiledShop shop;

  @BeforeAll
  static void fillTheShop() throws Exception {
    shop = new FiledShop(root);
    for (int i = 1; i <= 4; i++) {
      String strip = "AAAA-000" + i;
      shop.file(
          LedgerFixture.stamped(i, "flyer " + i + ".pdf"),
          Optional.of(LedgerFixture.strips(i == 4 ? SYSTEM : "Proofer 1", strip)));
      String json = LedgerFixture.scoreJson(new LabShift(i == 1 ? -9 : 0.1, 0, 0), strip);
      // The standard set of the first passes all the same: an escape.
      shop.ledger.fileScore(LedgerFixture.score(i, i), i == 1 ? standardPassed(json) : json);
    }
  }

  private static String standardPassed(String json) throws Exception {
    ObjectMapper mapper = new ObjectMapper();
    JsonNode score = mapper.readTree(json);
    ((com.fasterxml.jackson.databind.node.ObjectNode) score.path("sets").path("standard"))
        .put("verdict", "pass");
    return mapper.writeValueAsString(score);
  }

  @AfterAll
  static void close() {
    shop.close();
  }

  @Test
  void show_season_hasAgreementEscapesAndTheWayToTheColours() throws Exception {
    HttpResponse<String> page = shop.get("/comparison");

    assertThat(page.statusCode()).isEqualTo(200);
    assertThat(page.body())
        .contains("4 scored strips with both verdicts")
        .contains("<h2>Escapes: 1</h2>")
        .contains("<h2>False alarms: 0</h2>")
        .contains("Escapes, the standard strip passes and the job strip fails: 1 of 4")
        .contains("/scores/" + LedgerFixture.score(1, 1).scoreId() + "#AAAA-0001-job-J0")
        .contains("href=\"/proofs/" + LedgerFixture.id(1) + "\"")
        .contains("SIMULATED");
  }

  @Test
  void show_hostileName_neverEndsTheDataNorStandsAsMarkup() throws Exception {
    String page = shop.get("/comparison").body();
    String data =
        page.substring(
            page.indexOf('>', page.indexOf("id=\"chart-data\"")) + 1,
            page.lastIndexOf("</script>"));

    assertThat(page).doesNotContain(SYSTEM).contains("&lt;/script&gt;");
    assertThat(new ObjectMapper().readTree(data).path("trends").size()).isEqualTo(2);
    assertThat(page).doesNotContain(" style=");
  }

  @Test
  void show_oneSystem_comparesItAlone() throws Exception {
    assertThat(shop.get("/comparison?proofing_system=Proofer+1").body())
        .contains("3 scored strips with both verdicts")
        .contains("<option value=\"Proofer 1\" selected>");
    assertThat(shop.get("/comparison?from=2026-11-26").body()).contains("Nothing to compare yet");
    assertThat(shop.get("/comparison?from=2026-11-25&to=2026-11-25").body())
        .contains("4 scored strips");
    assertThat(shop.get("/comparison?folder=flyers").body()).contains("4 scored strips");
  }

  @ParameterizedTest
  @ValueSource(
      strings = {
        "from=yesterday",
        "to=2026-13-41",
        "from=../../etc/passwd",
        "from=%2B999999999-12-31",
        "from=-0001-01-01",
        "from=2026-11-25&to=2026-11-01"
      })
  void show_noPeriod_saysSo(String query) throws Exception {
    HttpResponse<String> page = shop.get("/comparison?" + query);

    assertThat(page.statusCode()).isEqualTo(200);
    assertThat(page.body()).contains("role=\"alert\"");
  }

  @ParameterizedTest
  @ValueSource(strings = {"proofing_system", "substrate", "condition", "folder"})
  void show_hostileWish_isEscapedAndFindsNothing(String name) throws Exception {
    HttpResponse<String> page =
        shop.get("/comparison?" + name + "=%22%3E%3Cscript%3Ealert(2)%3C/script%3E'%20OR%201=1--");

    assertThat(page.statusCode()).isEqualTo(200);
    assertThat(page.body()).doesNotContain("<script>alert(2)").contains("Nothing to compare yet");
  }

  @Test
  void download_csvAndPdf_areThoseOfTheCommand() throws Exception {
    HttpResponse<String> csv = shop.get("/comparison/strips.csv?proofing_system=Proofer+1");

    assertThat(csv.body())
        .startsWith(ComparisonCsv.of(empty()).strip())
        .contains("flyer-proof.pdf");
    assertThat(csv.body().lines().count()).isEqualTo(4);
    byte[] pdf = shop.web.bytes("/comparison/report.pdf").body();
    assertThat(new String(pdf, 0, 5, StandardCharsets.US_ASCII)).isEqualTo("%PDF-");
  }

  private static selvage.comparison.Comparison empty() {
    return new selvage.comparison.ComparisonBuilder(selvage.comparison.Ewma.USUAL, 10)
        .build("", selvage.ledger.ScoreFilter.ALL, java.util.List.of());
  }

  @Test
  void show_emptyLedger_saysWhatIsMissing(@TempDir Path other) throws Exception {
    try (FiledShop empty = new FiledShop(other)) {
      assertThat(empty.get("/comparison").body())
          .contains("The ledger has no scores")
          .doesNotContain("chart-data");
    }
  }
}
