package selvage.web;

import static org.junit.jupiter.api.Assumptions.assumeTrue;

import com.deque.html.axecore.results.Results;
import com.deque.html.axecore.results.Rule;
import com.deque.html.axecore.selenium.AxeBuilder;
import java.io.IOException;
import java.nio.file.Files;
import java.nio.file.Path;
import java.time.Duration;
import java.util.List;
import java.util.Map;
import org.openqa.selenium.By;
import org.openqa.selenium.Dimension;
import org.openqa.selenium.JavascriptExecutor;
import org.openqa.selenium.OutputType;
import org.openqa.selenium.WebElement;
import org.openqa.selenium.chrome.ChromeDriver;
import org.openqa.selenium.chrome.ChromeDriverService;
import org.openqa.selenium.chrome.ChromeOptions;
import org.openqa.selenium.logging.LogType;
import org.openqa.selenium.logging.LoggingPreferences;
import org.openqa.selenium.support.ui.ExpectedCondition;
import org.openqa.selenium.support.ui.WebDriverWait;

/** Debian's Chromium, with a profile of its own and no business on any network. */
final class Browser implements AutoCloseable {
  static final int WIDE = 1280;
  static final int NARROW = 390;
  private static final Path CHROMIUM = Path.of("/usr/bin/chromium");
  private static final Path DRIVER = Path.of("/usr/bin/chromedriver");
  private static final Duration PATIENCE = Duration.ofSeconds(60);

  final ChromeDriver driver;

  private Browser(ChromeDriver driver) {
    this.driver = driver;
  }

  /** Skips the test where the browser is not installed. */
  static void assumeInstalled() {
    assumeTrue(
        Files.isExecutable(CHROMIUM) && Files.isExecutable(DRIVER),
        "chromium or chromium-driver is not installed");
  }

  /**
   * Starts a browser.
   *
   * @param profile an empty folder
   * @param scripts whether pages may run scripts
   */
  static Browser start(Path profile, boolean scripts) {
    ChromeOptions options = new ChromeOptions();
    options.setBinary(CHROMIUM.toFile());
    options.addArguments(
        "--headless=new",
        "--no-sandbox",
        "--disable-gpu",
        "--disable-dev-shm-usage",
        "--disable-background-networking",
        "--disable-quic",
        "--no-first-run",
        "--disable-component-update",
        "--disable-sync",
        "--disable-extensions",
        "--hide-scrollbars",
        "--lang=en-GB",
        "--force-device-scale-factor=1",
        "--user-data-dir=" + profile.toAbsolutePath());
    LoggingPreferences logging = new LoggingPreferences();
    logging.enable(LogType.BROWSER, java.util.logging.Level.ALL);
    options.setCapability("goog:loggingPrefs", logging);
    options.setExperimentalOption(
        "prefs",
        Map.of(
            "intl.accept_languages",
            "en-GB,en",
            "profile.managed_default_content_settings.javascript",
            scripts ? 1 : 2));
    ChromeDriverService service =
        new ChromeDriverService.Builder()
            .usingDriverExecutable(DRIVER.toFile())
            .usingAnyFreePort()
            .withSilent(true)
            .build();
    ChromeDriver driver = new ChromeDriver(service, options);
    driver.manage().timeouts().pageLoadTimeout(PATIENCE);
    Browser browser = new Browser(driver);
    browser.resize(WIDE);
    return browser;
  }

  /** The width of the page itself, which a window's frame would narrow. */
  void resize(int width) {
    int height = width == NARROW ? 844 : 900;
    driver.manage().window().setSize(new Dimension(Math.max(width, 500), height));
    driver.executeCdpCommand(
        "Emulation.setDeviceMetricsOverride",
        Map.of("width", width, "height", height, "deviceScaleFactor", 1, "mobile", false));
  }

  void dark(boolean dark) {
    driver.executeCdpCommand(
        "Emulation.setEmulatedMedia",
        Map.of(
            "features",
            List.of(Map.of("name", "prefers-color-scheme", "value", dark ? "dark" : "light"))));
  }

  void open(String address) {
    driver.get(address);
  }

  <T> T await(ExpectedCondition<T> condition) {
    return new WebDriverWait(driver, PATIENCE, Duration.ofMillis(20)).until(condition);
  }

  WebElement await(String css) {
    return await(d -> d.findElements(By.cssSelector(css)).stream().findFirst().orElse(null));
  }

  WebElement find(String css) {
    return driver.findElement(By.cssSelector(css));
  }

  List<WebElement> all(String css) {
    return driver.findElements(By.cssSelector(css));
  }

  String text(String css) {
    return find(css).getText();
  }

  Object script(String script, Object... arguments) {
    return ((JavascriptExecutor) driver).executeScript(script, arguments);
  }

  /** What breaks WCAG 2.2 at levels A and AA, and axe-core's own rules of good practice. */
  List<String> violations() {
    Results results =
        new AxeBuilder()
            .withTags(
                List.of("wcag2a", "wcag2aa", "wcag21a", "wcag21aa", "wcag22aa", "best-practice"))
            .analyze(driver);
    return results.getViolations().stream().map(Browser::words).toList();
  }

  private static String words(Rule rule) {
    StringBuilder text = new StringBuilder(rule.getId() + ": " + rule.getHelp());
    rule.getNodes().forEach(node -> text.append("\n    ").append(node.getHtml()));
    return text.toString();
  }

  /** What the browser complained of: scripts that failed, content that the policy blocked. */
  List<String> complaints() {
    return driver.manage().logs().get(LogType.BROWSER).getAll().stream()
        .filter(entry -> entry.getLevel().intValue() >= java.util.logging.Level.WARNING.intValue())
        .map(entry -> entry.getMessage())
        .toList();
  }

  /** The whole page as a picture. */
  void photograph(Path file) throws IOException {
    Map<String, Object> shot =
        driver.executeCdpCommand(
            "Page.captureScreenshot",
            Map.of("format", "webp", "quality", 80, "captureBeyondViewport", true));
    Files.write(file, OutputType.BYTES.convertFromBase64Png((String) shot.get("data")));
  }

  @Override
  public void close() {
    driver.quit();
  }
}
