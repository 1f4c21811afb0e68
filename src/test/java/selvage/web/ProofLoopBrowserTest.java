package selvage.web;

import static org.assertj.core.api.Assertions.assertThat;

import java.net.http.HttpResponse;
import java.nio.file.Files;
import java.nio.file.Path;
import java.util.List;
import java.util.Map;
import java.util.Optional;
import java.util.stream.Stream;
import org.junit.jupiter.api.AfterAll;
import org.junit.jupiter.api.BeforeAll;
import org.junit.jupiter.api.Test;
import org.junit.jupiter.api.TestInstance;
import org.junit.jupiter.api.io.TempDir;
import selvage.fixture.Ghostscript;
import selvage.fixture.TintPlane;
import selvage.measurement.Drift;
import selvage.measurement.LabShift;
import selvage.measurement.StripChoice;
import selvage.workflow.RehearseProof;

/** From a customer's PDF to the supervisor's comparison, in a real browser. */
@TestInstance(TestInstance.Lifecycle.PER_CLASS)
class ProofLoopBrowserTest {
  private WebShop shop;
  private Browser browser;

  @BeforeAll
  void open(@TempDir Path root, @TempDir Path profile) throws Exception {
    Browser.assumeInstalled();
    shop = WebShop.open(root);
    browser = Browser.start(profile.resolve("loop"), true);
  }

  @AfterAll
  void close() {
    if (browser != null) {
      browser.close();
    }
    if (shop != null) {
      shop.close();
    }
  }

  private Path outgoing(String ending) throws Exception {
    try (Stream<Path> files = Files.list(shop.root.resolve("out"))) {
      return files.filter(file -> file.toString().endsWith(ending)).findFirst().orElseThrow();
    }
  }

  /** The page, looked at in both widths and shades. */
  private void examine(String what) {
    for (int width : List.of(Browser.NARROW, Browser.WIDE)) {
      browser.resize(width);
      for (boolean dark : List.of(true, false)) {
        browser.dark(dark);
        String how = what + ", " + width + " px, " + (dark ? "dark" : "light");
        assertThat(browser.violations()).as(how).isEmpty();
        assertThat(
                (Boolean)
                    browser.script(
                        "return document.documentElement.scrollWidth <= window.innerWidth"))
            .as("no scrolling sideways: " + how)
            .isTrue();
      }
    }
  }

  @Test
  void loop_spotColourGoneWrong_isCaughtByTheJobStripAndFoundInTheComparison() throws Exception {
    browser.resize(Browser.WIDE);
    browser.open(shop.base() + "/");
    browser.find("input[name=job]").sendKeys(WebShop.DEMO_JOB.toAbsolutePath().toString());
    browser.find("button.main").click();
    browser.await("#review[data-map='1']");
    browser.all("#set .patch .show").get(5).click();
    browser.find("#set .patch:nth-child(6) button[value=drop]").click();
    browser.await("#review[data-map='2']");
    browser.find("#approve").click();
    browser.await("#proof");
    assertThat(browser.text(".notice")).contains("demo-job.proof.pdf");
    examine("proof");

    String link = browser.find(".downloads a[href*='proof']").getDomAttribute("href");
    HttpResponse<byte[]> proof = shop.bytes(link);
    assertThat(proof.headers().firstValue("Content-Disposition").orElse(""))
        .startsWith("attachment");
    Path file = shop.root.resolve("downloaded.pdf");
    Files.write(file, proof.body());
    assertThat(Files.mismatch(file, outgoing(".proof.pdf"))).isEqualTo(-1);
    if (Ghostscript.isInstalled()) {
      Map<String, TintPlane> planes = Ghostscript.planes(file, 1, 36);
      assertThat(planes.keySet()).contains("Cyan", "Black", "Dune Red", "Reed Teal");
    }

    Path measured = shop.root.resolve("measured.txt");
    new RehearseProof(
            StripChoice.ANY,
            Optional.empty(),
            new Drift(
                Map.of(),
                Map.of(),
                LabShift.NONE,
                Map.of("Dune Red", new LabShift(-3, -6, 4)),
                LabShift.NONE,
                0.2,
                3))
        .run(outgoing(".strips.json"), measured);
    browser.find("input[name=measurement]").sendKeys(measured.toString());
    browser.find("#measure button").click();
    browser.await(d -> browser.driver.getCurrentUrl().contains("/scores/"));
    assertThat(browser.text("main")).contains("fail", "Dune Red").contains("SIMULATED");
    String scoreId = browser.driver.getCurrentUrl().replaceAll(".*/scores/([0-9a-f]+).*", "$1");
    assertThat(shop.get("/api/v1/scores/" + scoreId).body())
        .contains("measured.txt")
        .doesNotContain(shop.root.toString());
    examine("score");

    browser.open(shop.base() + "/comparison");
    assertThat(browser.text("main"))
        .contains("Escapes: 2", "demo-job.proof.pdf", "Dune Red")
        .doesNotContain(shop.root.toString());
    examine("comparison");
    browser.find("main a[href*='/scores/']").click();
    browser.await(d -> browser.driver.getCurrentUrl().contains("/scores/"));

    browser.open(shop.base() + "/");
    assertThat(browser.text("#proofs")).contains("demo-job.pdf", "fail", "pass");
    examine("jobs");
    assertThat(browser.complaints()).isEmpty();
  }
}
