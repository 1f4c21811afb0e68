package selvage.web;

import static org.assertj.core.api.Assertions.assertThat;

import java.net.http.HttpResponse;
import java.nio.file.Files;
import java.nio.file.Path;
import java.util.ArrayList;
import java.util.List;
import java.util.Optional;
import java.util.regex.Matcher;
import java.util.regex.Pattern;
import org.junit.jupiter.api.AfterAll;
import org.junit.jupiter.api.BeforeAll;
import org.junit.jupiter.api.Test;
import org.junit.jupiter.api.io.TempDir;
import org.junit.jupiter.params.ParameterizedTest;
import org.junit.jupiter.params.provider.ValueSource;
import selvage.ledger.JobRecord;
import selvage.ledger.LedgerFixture;
import selvage.ledger.ScoreRecord;
import selvage.measurement.LabShift;

/** The page of a score, over HTTP. */
class ScorePagesTest {
  private static final String HOSTILE = "<img src=x onerror=alert(1)>\"'&.pdf";

  @TempDir static Path root;
  private static FiledShop shop;
  private static String failed;
  private static String passed;
  private static String orphan;

  @BeforeAll
  static void fillTheShop() throws Exception {
    shop = new FiledShop(root);
    JobRecord job = LedgerFixture.stamped(1, HOSTILE);
    String strips = LedgerFixture.strips("Proofer <i>1</i>", "AAAA-0001", "AAAA-0002");
    shop.file(job, Optional.of(strips));
    failed = file(1, 1, new LabShift(-9, 0, 0));
    passed = file(2, 1, new LabShift(0.2, 0, 0));
    orphan = file(3, 0, new LabShift(0, 0, 0));
  }

  private static String file(int number, int job, LabShift shift) throws Exception {
    ScoreRecord score = LedgerFixture.score(number, job);
    shop.ledger.fileScore(score, LedgerFixture.scoreJson(shift, "AAAA-0001", "AAAA-0002"));
    return score.scoreId();
  }

  @AfterAll
  static void close() {
    shop.close();
  }

  @Test
  void show_failed_hasVerdictByShapeAndWordChecksAndPatches() throws Exception {
    HttpResponse<String> page = shop.get("/scores/" + failed);

    assertThat(page.statusCode()).isEqualTo(200);
    assertThat(page.body())
        .contains("<span class=\"verdict fail\"><svg class=\"sign\"")
        .contains("checks are beyond their limits")
        .contains("SIMULATED")
        .contains("<caption>Checks</caption>")
        .contains("id=\"AAAA-0001-job-J01\"")
        .contains("Drift on the a*b* plane")
        .contains("href=\"/proofs/" + LedgerFixture.id(1) + "\"");
  }

  @Test
  void show_passed_saysSo() throws Exception {
    assertThat(shop.get("/scores/" + passed).body())
        .contains("<span class=\"verdict pass\">")
        .contains("checks are within their limits");
  }

  @Test
  void show_withoutItsJob_isShownWithoutBuilds() throws Exception {
    HttpResponse<String> page = shop.get("/scores/" + orphan);

    assertThat(page.statusCode()).isEqualTo(200);
    assertThat(page.body())
        .contains("The ledger lacks the proof")
        .contains(">not known</td>")
        .doesNotContain("correction.txt");
  }

  @Test
  void show_hostileNames_areEscapedAndNothingIsInline() throws Exception {
    HttpResponse<String> page = shop.get("/scores/" + failed);

    assertThat(page.body())
        .contains("&lt;img src=x onerror=alert(1)&gt;")
        .doesNotContain("<img")
        .doesNotContain("<i>1</i>")
        .doesNotContain(" style=")
        .doesNotContain("<style");
    assertThat(page.headers().firstValue("Content-Security-Policy").orElseThrow())
        .contains("script-src 'self';");
  }

  @Test
  void show_sorted_putsTheGreatestFirstAndSaysSo() throws Exception {
    String page = shop.get("/scores/" + failed + "?sort=-de00").body();
    List<Double> values = values(page);
    List<Double> sorted = new ArrayList<>(values);
    sorted.sort(java.util.Comparator.reverseOrder());

    assertThat(values).hasSizeGreaterThan(5).isEqualTo(sorted);
    assertThat(page).contains("aria-sort=\"descending\"").contains("value=\"de00\"");
    assertThat(values(shop.get("/scores/" + failed + "?sort=de00").body())).isNotEqualTo(values);
  }

  /** ΔE00 of the first strip's patches, in the order of the page. */
  private static List<Double> values(String page) {
    Matcher cell = Pattern.compile("class=\"n strong\" data-v=\"([0-9.]+)\"").matcher(page);
    List<Double> values = new ArrayList<>();
    int end = page.indexOf("id=\"strip-2\"");
    while (cell.find() && cell.start() < end) {
      values.add(Double.parseDouble(cell.group(1)));
    }
    return values;
  }

  @ParameterizedTest
  @ValueSource(
      strings = {"../../etc/passwd", "%00", "'%20OR%201=1", "-", "DE00", "%3Cscript%3E", "-de99"})
  void show_sortThatIsNone_isTheStripsOwnOrder(String sort) throws Exception {
    HttpResponse<String> page = shop.get("/scores/" + failed + "?sort=" + sort);

    assertThat(page.statusCode()).isEqualTo(200);
    assertThat(page.body()).doesNotContain("aria-sort").doesNotContain("<script>");
  }

  @ParameterizedTest
  @ValueSource(
      strings = {
        "/scores/../../etc/passwd",
        "/scores/..%2f..%2fetc%2fpasswd",
        "/scores/%2e%2e",
        "/scores/0123",
        "/scores/ffffffffffffffffffffffffffffffff",
        "/scores/FFFFFFFFFFFFFFFFFFFFFFFFFFFFFFFF",
        "/scores/%3Cscript%3Ealert(1)%3C%2Fscript%3E",
        "/scores/ffffffffffffffffffffffffffffffff/files/score.json"
      })
  void show_noScoresAddress_isNotFound(String path) throws Exception {
    HttpResponse<String> page = shop.get(path);

    assertThat(page.statusCode()).isIn(400, 404);
    assertThat(page.body()).doesNotContain("root:").doesNotContain("<script>alert");
  }

  @ParameterizedTest
  @ValueSource(strings = {"..%2fscore.json", "score.JSON", "%2e%2e", "report.pdf%00", "x"})
  void download_noFilesName_isNotFound(String name) throws Exception {
    assertThat(shop.get("/scores/" + failed + "/files/" + name).statusCode()).isIn(400, 404);
  }

  @Test
  void download_score_isTheFiledTextAsAnAttachment() throws Exception {
    HttpResponse<String> file = shop.get("/scores/" + failed + "/files/score.json");

    assertThat(file.statusCode()).isEqualTo(200);
    assertThat(file.body()).isEqualTo(shop.ledger.scoreJson(failed).orElseThrow());
    assertThat(file.headers().firstValue("Content-Disposition").orElseThrow())
        .startsWith("attachment; filename=\"")
        .doesNotContain("<");
    assertThat(file.headers().firstValue("X-Content-Type-Options")).contains("nosniff");
  }

  @Test
  void download_reportThatIsGone_saysSo() throws Exception {
    HttpResponse<String> page = shop.get("/scores/" + failed + "/files/report.pdf");

    assertThat(page.statusCode()).isEqualTo(404);
    assertThat(page.body()).contains("is no longer where the ledger says it lay");
  }

  @Test
  void download_reportThatIsThere_isSent() throws Exception {
    String name = "a flyer";
    JobRecord job = LedgerFixture.stamped(5, name);
    shop.file(job, Optional.of(LedgerFixture.strips("Proofer 1", "BBBB-0001")));
    ScoreRecord score = LedgerFixture.score(5, 5);
    shop.ledger.fileScore(score, LedgerFixture.scoreJson(new LabShift(0, 0, 0), "BBBB-0001"));
    String proof = job.proof().orElseThrow();
    Files.writeString(
        shop.outgoing.resolve(
            proof.substring(0, proof.length() - 4)
                + ".score-"
                + score.scoreId().substring(0, 8)
                + ".pdf"),
        "%PDF-report");

    HttpResponse<String> file = shop.get("/scores/" + score.scoreId() + "/files/report.pdf");

    assertThat(file.statusCode()).isEqualTo(200);
    assertThat(file.body()).isEqualTo("%PDF-report");
    assertThat(shop.get("/scores/" + score.scoreId()).body()).contains("Report, PDF");
  }

  @Test
  void correction_asked_isToldOrSaysWhyNot() throws Exception {
    String page = shop.get("/scores/" + failed + "?correction=1").body();

    assertThat(page).contains("What would mend it").doesNotContain("Work out a correction");
    HttpResponse<String> curves = shop.get("/scores/" + failed + "/files/correction.txt");
    assertThat(curves.statusCode()).isEqualTo(200);
    assertThat(curves.body()).contains("Correction curves").contains("SIMULATED");
  }
}
