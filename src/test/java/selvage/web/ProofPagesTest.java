package selvage.web;

import static org.assertj.core.api.Assertions.assertThat;

import java.net.http.HttpRequest;
import java.net.http.HttpResponse;
import java.nio.charset.StandardCharsets;
import java.nio.file.Files;
import java.nio.file.Path;
import java.time.Instant;
import java.util.Optional;
import org.junit.jupiter.api.AfterAll;
import org.junit.jupiter.api.BeforeAll;
import org.junit.jupiter.api.Test;
import org.junit.jupiter.api.io.TempDir;
import org.junit.jupiter.params.ParameterizedTest;
import org.junit.jupiter.params.provider.ValueSource;
import selvage.ledger.JobRecord;
import selvage.ledger.LedgerFixture;
import selvage.measurement.LabShift;
import selvage.measurement.StripFixture;

/** The page of a proof, over HTTP. */
class ProofPagesTest {
  private static final String SPOT = "<script>alert('spot')</script>";

  @TempDir static Path root;
  private static FiledShop shop;
  private static final String PROOF = "/proofs/" + LedgerFixture.id(1);

  @BeforeAll
  static void fillTheShop() throws Exception {
    shop = new FiledShop(root);
    String strips =
        LedgerFixture.strips("Proofer 1", "AAAA-0001").replace("\"Dune Red\"", "\"" + SPOT + "\"");
    assertThat(strips).contains(SPOT);
    shop.file(LedgerFixture.stamped(1, "flyer.pdf"), Optional.of(strips));
    shop.file(LedgerFixture.refused(2, "b<b>ad.pdf", "no PDF: found <html>"), Optional.empty());
    shop.ledger.fileScore(
        LedgerFixture.score(1, 1), LedgerFixture.scoreJson(new LabShift(-9, 0, 0), "AAAA-0001"));
    Files.writeString(root.resolve("secret.pdf"), "secret");
    Files.writeString(shop.outgoing.resolve("flyer.pdf.proof.pdf"), "%PDF-proof");
    Files.createSymbolicLink(shop.outgoing.resolve("link.pdf"), root.resolve("secret.pdf"));
  }

  @AfterAll
  static void close() {
    shop.close();
  }

  @Test
  void show_stamped_hasStripsPatchesCoverageFindingsAndScores() throws Exception {
    HttpResponse<String> page = shop.get(PROOF);

    assertThat(page.statusCode()).isEqualTo(200);
    assertThat(page.body())
        .contains("<h1>Proof of flyer.pdf</h1>")
        .contains("strip AAAA-0001")
        .contains("Inked area near a job patch")
        .contains("page 1: some tints are left out")
        .contains("FOGRA39")
        .contains("href=\"/scores/" + LedgerFixture.score(1, 1).scoreId() + "\"")
        .contains("<span class=\"verdict fail\">");
  }

  @Test
  void show_hostileSpotName_isEscaped() throws Exception {
    assertThat(shop.get(PROOF).body()).contains("&lt;script&gt;alert(").doesNotContain(SPOT);
  }

  @Test
  void show_refused_saysWhyEscaped() throws Exception {
    HttpResponse<String> page = shop.get("/proofs/" + LedgerFixture.id(2));

    assertThat(page.statusCode()).isEqualTo(200);
    assertThat(page.body())
        .contains("Why it was refused")
        .contains("no PDF: found &lt;html&gt;")
        .contains("b&lt;b&gt;ad.pdf")
        .doesNotContain("name=\"measurement\"");
  }

  @Test
  void download_proof_isSentAsAnAttachment() throws Exception {
    HttpResponse<String> file = shop.get(PROOF + "/files/proof.pdf");

    assertThat(file.statusCode()).isEqualTo(200);
    assertThat(file.body()).isEqualTo("%PDF-proof");
    assertThat(file.headers().firstValue("Content-Disposition"))
        .contains("attachment; filename=\"flyer.proof.pdf\"; filename*=UTF-8''flyer.proof.pdf");
    assertThat(file.headers().firstValue("Content-Type")).contains("application/pdf");
  }

  @Test
  void download_strips_isTheFiledText() throws Exception {
    assertThat(shop.get(PROOF + "/files/strips.json").body())
        .isEqualTo(shop.ledger.stripsJson(LedgerFixture.id(1)).orElseThrow());
  }

  @Test
  void download_stripTextThatIsGone_saysSo() throws Exception {
    HttpResponse<String> page = shop.get(PROOF + "/files/strip-p001.txt");

    assertThat(page.statusCode()).isEqualTo(404);
    assertThat(page.body()).contains("is no longer where the ledger says it lay");
    assertThat(shop.get(PROOF).body()).contains("Strip of page 1, CGATS: no longer there");
  }

  @ParameterizedTest
  @ValueSource(strings = {"../secret.pdf", "/etc/passwd", "link.pdf", "a\u0000b.pdf", "."})
  void download_recordThatLeadsOutOfTheFolder_isNotFound(String proof) throws Exception {
    JobRecord job =
        new JobRecord(
            LedgerFixture.id(77),
            FiledShop.FOLDER,
            "led astray.pdf",
            LedgerFixture.hash(77),
            1,
            Instant.EPOCH,
            Instant.EPOCH,
            JobRecord.State.STAMPED,
            Optional.of(proof),
            Optional.empty(),
            Optional.empty());
    shop.file(job, Optional.of(LedgerFixture.strips("Proofer 1", "CCCC-0001")));

    HttpResponse<String> page = shop.get("/proofs/" + LedgerFixture.id(77) + "/files/proof.pdf");

    assertThat(page.statusCode()).isEqualTo(404);
    assertThat(page.body()).doesNotContain("secret").doesNotContain("root:");
  }

  @ParameterizedTest
  @ValueSource(
      strings = {
        "/files/..%2f..%2fsecret.pdf",
        "/files/%2e%2e",
        "/files/strip-p001.txt%00",
        "/files/strip-p9999999.txt",
        "/files/flyer.pdf.proof.pdf"
      })
  void download_noFilesName_isNotFound(String name) throws Exception {
    assertThat(shop.get(PROOF + name).statusCode()).isIn(400, 404);
  }

  @ParameterizedTest
  @ValueSource(
      strings = {
        "/proofs/..%2f..%2f",
        "/proofs/1",
        "/proofs/gggggggggggggggggggggggggggggggg",
        "/proofs/%00"
      })
  void show_noProofsAddress_isNotFound(String path) throws Exception {
    assertThat(shop.get(path).statusCode()).isIn(400, 404);
  }

  @Test
  void score_withoutTheSessionsToken_isNotAllowed() throws Exception {
    HttpResponse<String> page =
        shop.web.send(
            shop.web
                .request(PROOF + "/measurements")
                .header("Content-Type", "application/x-www-form-urlencoded")
                .POST(HttpRequest.BodyPublishers.ofString("csrf=00"))
                .build());

    assertThat(page.statusCode()).isEqualTo(403);
  }

  @Test
  void score_noMeasurement_isToldOnThePage() throws Exception {
    HttpResponse<String> page =
        shop.web.upload(
            PROOF + "/measurements", "measurement", "../../a<b>.txt", new byte[] {1, 2, 3});

    assertThat(page.statusCode()).isEqualTo(422);
    assertThat(page.body())
        .contains("role=\"alert\"")
        .contains("a_b_.txt")
        .contains("<h1>Proof of flyer.pdf</h1>")
        .doesNotContain("<b>.txt")
        .doesNotContain(root.toString());
  }

  @Test
  void score_nothingChosen_saysWhatIsTaken() throws Exception {
    HttpResponse<String> page =
        shop.web.upload(PROOF + "/measurements", "measurement", "", new byte[0]);

    assertThat(page.statusCode()).isEqualTo(422);
    assertThat(page.body()).contains("Choose a measurement file first");
  }

  @Test
  void score_measurementOfTheProof_leadsToItsScore() throws Exception {
    String strips = LedgerFixture.strips("Proofer 1", "DDDD-0001");
    JobRecord job = LedgerFixture.stamped(9, "card.pdf");
    shop.file(job, Optional.of(strips));
    Files.writeString(shop.outgoing.resolve("card.pdf.proof.pdf"), "%PDF-proof");
    Files.writeString(shop.outgoing.resolve("card.pdf.proof.strips.json"), strips);
    HttpResponse<String> page =
        shop.web.upload(
            "/proofs/" + job.jobId() + "/measurements",
            "measurement",
            "card.txt",
            StripFixture.measured("DDDD-0001", 0, 0, 0).getBytes(StandardCharsets.UTF_8));

    assertThat(page.statusCode()).isEqualTo(200);
    assertThat(page.uri().getPath()).matches("/scores/[0-9a-f]{32}");
    assertThat(page.body()).contains("Score of card.pdf").contains("verdict pass");
    assertThat(shop.get("/proofs/" + job.jobId()).body()).contains(page.uri().getPath());
  }
}
