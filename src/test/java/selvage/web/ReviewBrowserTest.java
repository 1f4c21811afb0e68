package selvage.web;

import static org.assertj.core.api.Assertions.assertThat;

import java.nio.file.Path;
import java.util.List;
import org.junit.jupiter.api.AfterAll;
import org.junit.jupiter.api.BeforeAll;
import org.junit.jupiter.api.Test;
import org.junit.jupiter.api.TestInstance;
import org.junit.jupiter.api.io.TempDir;
import org.openqa.selenium.Keys;
import org.openqa.selenium.WebElement;
import org.openqa.selenium.interactions.Actions;

/** The review as an operator uses it, in a real browser. */
@TestInstance(TestInstance.Lifecycle.PER_CLASS)
class ReviewBrowserTest {
  private WebShop shop;
  private Browser browser;
  private Path profiles;

  @BeforeAll
  void open(@TempDir Path root, @TempDir Path profiles) throws Exception {
    Browser.assumeInstalled();
    this.profiles = profiles;
    shop = WebShop.open(root);
    browser = Browser.start(profiles.resolve("scripts"), true);
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

  /** Takes the demo's job in, through the form. */
  private void takeIn() {
    browser.open(shop.base() + "/");
    browser.find("input[name=job]").sendKeys(WebShop.DEMO_JOB.toAbsolutePath().toString());
    browser.find("button.main").click();
    browser.await("#review[data-map]");
  }

  private double coverage() {
    return Double.parseDouble(browser.text("#coverage").replace(" %", ""));
  }

  private int patches() {
    return browser.all("#set .patch").size();
  }

  private void awaitVersion(int version) {
    browser.await("#review[data-map='" + version + "']");
  }

  @Test
  void review_withTheMouse_lightsDropsAddsAndUndoes() throws Exception {
    browser.resize(Browser.WIDE);
    takeIn();
    assertThat(patches()).isEqualTo(24);
    final double before = coverage();

    WebElement third = browser.all("#set .patch .show").get(2);
    new Actions(browser.driver).moveToElement(third).perform();
    browser.await("#review[data-lit='2']");
    assertThat(Integer.parseInt(browser.find("#review").getDomAttribute("data-places")))
        .as("places that are lit")
        .isPositive();

    browser.all("#set .patch .show").get(0).click();
    browser
        .all("#set .patch")
        .get(0)
        .findElement(org.openqa.selenium.By.cssSelector("button[value=drop]"))
        .click();
    awaitVersion(2);
    assertThat(patches()).isEqualTo(23);
    final double dropped = coverage();
    assertThat(dropped).isLessThan(before);
    browser.await(d -> browser.text("#history").contains("left out Dune Red 100"));
    assertThat(browser.text("#history")).contains("at 127.0.0.1");

    // The red band lies at two thirds of the page's height, and is no longer a patch.
    WebElement pane = browser.find("#pane");
    int down = pane.getSize().getHeight();
    new Actions(browser.driver)
        .moveToElement(pane, -down / 6, (int) (0.08 * down))
        .click()
        .perform();
    browser.await("#spot:not([hidden])");
    assertThat(browser.text("#spot-build")).isEqualTo("Dune Red 100");
    browser.await(d -> browser.find("#readout").getText().contains("Dune Red 100.0"));
    browser.find("#add").click();
    awaitVersion(3);
    assertThat(patches()).isEqualTo(24);
    assertThat(coverage()).isEqualTo(before);

    browser.find("#set button[value=undo]").click();
    awaitVersion(4);
    assertThat(coverage()).isEqualTo(dropped);
    browser.await("#strip svg [data-patch]");
    assertThat(browser.complaints()).isEmpty();
  }

  @Test
  void review_platesAndWhatIsNotCovered_areShown() {
    browser.resize(Browser.WIDE);
    takeIn();
    String whole = browser.find("#sheet").getDomProperty("src");
    browser.find("input[name=plate][value=Black]").click();
    browser.await(d -> !whole.equals(browser.find("#sheet").getDomProperty("src")));
    browser.find("#heat").click();
    browser.await("#review[data-lit=heat]");
    assertThat(browser.find("#legend").isDisplayed()).isTrue();
    // One place in seven is not covered by this set, as the coverage says.
    double places = Double.parseDouble(browser.find("#review").getDomAttribute("data-places"));
    assertThat(places).isBetween(10_000.0, 200_000.0);
  }

  @Test
  void review_byKeyboardAlone_changesTheSet() {
    browser.resize(Browser.WIDE);
    takeIn();
    browser.script("document.getElementById('pane').focus()");
    WebElement pane = browser.find("#pane");
    pane.sendKeys(Keys.ARROW_DOWN, Keys.ARROW_DOWN, Keys.ENTER);
    browser.await("#spot:not([hidden])");
    assertThat(browser.text("#spot-facts")).contains("patch");
    browser.driver.switchTo().activeElement().sendKeys(Keys.ESCAPE);
    browser.await("#spot[hidden]");

    browser.script("document.querySelector('#set .patch .show').focus()");
    browser.await("#review[data-lit='0']");
    browser.driver.switchTo().activeElement().sendKeys(Keys.TAB, Keys.TAB);
    WebElement down = browser.driver.switchTo().activeElement();
    assertThat(down.getAttribute("value")).isEqualTo("down");
    down.sendKeys(Keys.ENTER);
    awaitVersion(2);
    WebElement still = browser.driver.switchTo().activeElement();
    assertThat(still.getAttribute("aria-label")).isEqualTo("Move patch 2 down");
    still.sendKeys("u");
    awaitVersion(3);
    browser.await(d -> browser.text("#history").contains("took the last change back"));
  }

  @Test
  void pages_bothWidthsAndShades_haveNoFaultsThatAxeFinds() {
    for (int width : List.of(Browser.WIDE, Browser.NARROW)) {
      browser.resize(width);
      for (boolean dark : List.of(false, true)) {
        browser.dark(dark);
        String what = width + " px, " + (dark ? "dark" : "light");
        for (String path : List.of("/", "/sign-in", "/nothing", "/help/api", "/comparison")) {
          browser.open(shop.base() + path);
          assertThat(browser.violations()).as(path + ", " + what).isEmpty();
        }
        takeIn();
        browser.await("#strip svg [data-patch]");
        browser.all("#set .patch .show").get(1).click();
        assertThat(browser.violations()).as("review, " + what).isEmpty();
        assertThat(
                (Boolean)
                    browser.script(
                        "return document.documentElement.scrollWidth <= window.innerWidth"))
            .as("no scrolling sideways, " + what)
            .isTrue();
      }
    }
    browser.dark(false);
  }

  @Test
  void review_withoutScripts_canBeReadAndChanged() throws Exception {
    try (Browser plain = Browser.start(profiles.resolve("plain"), false)) {
      plain.open(shop.base() + "/");
      plain.find("input[name=job]").sendKeys(WebShop.DEMO_JOB.toAbsolutePath().toString());
      plain.find("button.main").click();
      plain.await("#set .patch");
      assertThat(plain.find("#sheet").getSize().getHeight()).isGreaterThan(300);
      assertThat(plain.all(".scripted").stream().filter(WebElement::isDisplayed)).isEmpty();
      String first = plain.all("#set .patch .build").get(0).getText();
      plain.all("#set button[value=drop]").get(0).click();
      plain.await(d -> plain.all("#set .patch").size() == 23 ? plain.find("#set") : null);
      assertThat(plain.all("#set .patch .build").get(0).getText()).isNotEqualTo(first);
    }
  }
}
