package selvage.web;

import java.nio.file.Files;
import java.nio.file.Path;
import java.util.Map;
import java.util.Optional;
import java.util.stream.Stream;
import org.openqa.selenium.interactions.Actions;
import selvage.measurement.Drift;
import selvage.measurement.LabShift;
import selvage.measurement.StripChoice;
import selvage.workflow.RehearseProof;

/**
 * Photographs the pages at both widths, for the documentation: {@code Screenshots FOLDER
 * SEASON.db}, the season being what the command {@code demo} writes. Run by hand, then looked at.
 */
public final class Screenshots {
  private final Path folder;
  private final WebShop shop;
  private final Browser browser;

  private Screenshots(Path folder, WebShop shop, Browser browser) {
    this.folder = folder;
    this.shop = shop;
    this.browser = browser;
  }

  /** Runs. */
  public static void main(String[] args) throws Exception {
    Path root = Files.createTempDirectory("screenshots");
    Path folder = Path.of(args[0]);
    Files.createDirectories(folder);
    Files.copy(Path.of(args[1]), root.resolve("ledger.db"));
    try (WebShop shop = WebShop.open(root);
        Browser browser = Browser.start(root.resolve("profile"), true)) {
      new Screenshots(folder, shop, browser).run();
    }
  }

  private void run() throws Exception {
    browser.open(shop.base() + "/comparison");
    photograph("comparison");
    browser.open(shop.base() + "/");
    browser.find("input[name=job]").sendKeys(WebShop.DEMO_JOB.toAbsolutePath().toString());
    browser.find("button.main").click();
    browser.await("#review[data-map]");
    browser.await("#strip svg [data-patch]");
    browser.find("#set .patch:nth-child(3) .show").click();
    browser.await("#review[data-lit='2']");
    photograph("review");
    browser.resize(Browser.WIDE);
    browser.find("#set .patch:nth-child(3) .show").click();
    browser.find("#heat").click();
    new Actions(browser.driver).moveToElement(browser.find("#pane")).click().perform();
    browser.await("#spot:not([hidden])");
    browser.photograph(folder.resolve("review-not-covered.webp"));
    browser.find("#approve").click();
    browser.await("#proof");
    photograph("proof");
    Path measured = shop.root.resolve("measured.txt");
    Drift drift =
        new Drift(
            Map.of("Magenta", 4.0),
            Map.of(),
            LabShift.NONE,
            Map.of("Dune Red", new LabShift(-3, -6, 4)),
            LabShift.NONE,
            0.2,
            3);
    try (Stream<Path> files = Files.list(shop.root.resolve("out"))) {
      Path strips =
          files.filter(file -> file.toString().endsWith(".strips.json")).findFirst().orElseThrow();
      new RehearseProof(StripChoice.ANY, Optional.empty(), drift).run(strips, measured);
    }
    browser.find("input[name=measurement]").sendKeys(measured.toString());
    browser.find("#measure button").click();
    browser.await(d -> browser.driver.getCurrentUrl().contains("/scores/"));
    photograph("score");
    browser.open(shop.base() + "/");
    photograph("jobs");
  }

  private void photograph(String name) throws Exception {
    for (int width : new int[] {Browser.WIDE, Browser.NARROW}) {
      browser.resize(width);
      Thread.sleep(800);
      browser.photograph(folder.resolve(name + "-" + width + ".webp"));
    }
    browser.resize(Browser.WIDE);
  }
}
