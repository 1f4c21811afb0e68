package selvage.web;

import java.nio.file.Files;
import java.nio.file.Path;
import java.util.ArrayList;
import java.util.Collections;
import java.util.List;
import java.util.Locale;

/**
 * Times a running server's review as an operator meets it, in Debian's Chromium: {@code
 * BrowserTimes ADDRESS JOB.pdf [TIMES]}. The browser works on the same processors. No test: figures
 * of a shared machine are no verdict.
 */
public final class BrowserTimes {
  /** Answers once the page's own clock has seen what was waited for. */
  private static final String POINT =
      """
      const show = document.querySelectorAll('#set .show')[arguments[0]];
      const start = performance.now();
      show.dispatchEvent(new PointerEvent('pointerover', { bubbles: true }));
      const drawn = document.getElementById('review').dataset.lit === String(arguments[0]);
      const done = arguments[1];
      requestAnimationFrame(() => setTimeout(() => done(drawn ? performance.now() - start : -1)));
      """;

  private static final String CHANGE =
      """
      const done = arguments[1];
      const start = performance.now();
      document.body.addEventListener('set-changed', () => {
        const review = document.getElementById('review');
        const version = document.getElementById('set').dataset.version;
        const shown = performance.now() - start;
        const wait = () => review.dataset.map === version
          ? done([shown, performance.now() - start]) : setTimeout(wait, 2);
        wait();
      }, { once: true });
      document.querySelector('#set button[value=' + arguments[0] + ']:not(:disabled)').click();
      """;

  private BrowserTimes() {}

  /** Runs. */
  public static void main(String[] args) throws Exception {
    int times = args.length > 2 ? Integer.parseInt(args[2]) : 7;
    List<Double> views = new ArrayList<>();
    List<Double> points = new ArrayList<>();
    List<Double> changes = new ArrayList<>();
    List<Double> maps = new ArrayList<>();
    try (Browser browser = Browser.start(Files.createTempDirectory("times"), true)) {
      browser.driver.manage().timeouts().scriptTimeout(java.time.Duration.ofSeconds(30));
      for (int i = 0; i < times; i++) {
        browser.open(args[0] + "/");
        browser.find("input[name=job]").sendKeys(Path.of(args[1]).toAbsolutePath().toString());
        long start = System.nanoTime();
        browser.find("button.main").click();
        browser.await("#set .patch");
        browser.await(
            d ->
                browser.script(
                    "const s = document.getElementById('sheet');"
                        + "return s && s.complete && s.naturalWidth > 0 ? s : null"));
        views.add((System.nanoTime() - start) / 1e6);
        browser.await("#review[data-map]");
        for (int patch = 0; patch < 8; patch++) {
          points.add(((Number) browser.driver.executeAsyncScript(POINT, patch)).doubleValue());
        }
        for (int turn = 0; turn < 6; turn++) {
          List<?> both =
              (List<?>) browser.driver.executeAsyncScript(CHANGE, turn % 2 == 0 ? "drop" : "undo");
          changes.add(((Number) both.get(0)).doubleValue());
          maps.add(((Number) both.get(1)).doubleValue());
        }
      }
    }
    print("upload to page and set seen", views);
    print("pointing to colour lit", points);
    print("change to set and coverage", changes);
    print("change to map as well", maps);
  }

  private static void print(String what, List<Double> values) {
    List<Double> sorted = new ArrayList<>(values);
    Collections.sort(sorted);
    System.out.printf(
        Locale.ROOT,
        "%-30s n %3d  least %6.0f  median %6.0f  most %6.0f ms%n",
        what,
        sorted.size(),
        sorted.get(0),
        sorted.get(sorted.size() / 2),
        sorted.get(sorted.size() - 1));
  }
}
