package selvage.web;

import java.io.IOException;
import java.net.CookieManager;
import java.net.URI;
import java.net.http.HttpClient;
import java.net.http.HttpRequest;
import java.net.http.HttpResponse;
import java.net.http.HttpResponse.BodyHandlers;
import java.nio.file.Files;
import java.nio.file.Path;
import java.time.Duration;
import java.util.ArrayList;
import java.util.Arrays;
import java.util.Collections;
import java.util.List;
import java.util.Locale;
import java.util.concurrent.CountDownLatch;
import java.util.concurrent.atomic.AtomicBoolean;
import java.util.regex.Matcher;
import java.util.regex.Pattern;

/**
 * Times a running server from outside, over loopback: {@code first JOB.pdf [TIMES]} from the upload
 * to the set and the picture of page 1, then the ink under the pointer, the map, and changes of the
 * set; {@code load JOB.pdf [SECONDS]} with 50 who browse and 5 who upload. No test: figures of a
 * shared machine are no verdict.
 */
public final class WebLoad {
  private static final int BROWSING = 50;
  private static final int UPLOADING = 5;
  private static final Pattern TOKEN = Pattern.compile("data-token=\"([0-9a-f]+)\"");
  private static final Pattern KEY = Pattern.compile("data-key=\"([^\"]+)\"");
  private static final Pattern VERSION = Pattern.compile("data-version=\"(\\d+)\"");

  private final String base;
  private final byte[] job;

  private WebLoad(String base, byte[] job) {
    this.base = base;
    this.job = job;
  }

  /** Runs with the server's address, what to time, the job, and how often or how long. */
  public static void main(String[] args) throws Exception {
    WebLoad load = new WebLoad(args[0], Files.readAllBytes(Path.of(args[2])));
    if (args[1].equals("first")) {
      load.first(args.length > 3 ? Integer.parseInt(args[3]) : 5);
    } else {
      load.load(args.length > 3 ? Integer.parseInt(args[3]) : 30);
    }
  }

  /** One browser. */
  private final class Visitor {
    private final HttpClient client =
        HttpClient.newBuilder()
            .cookieHandler(new CookieManager())
            .followRedirects(HttpClient.Redirect.NORMAL)
            .build();
    private String token = "";

    HttpResponse<byte[]> send(HttpRequest.Builder request)
        throws IOException, InterruptedException {
      HttpResponse<byte[]> answer =
          client.send(request.timeout(Duration.ofSeconds(60)).build(), BodyHandlers.ofByteArray());
      if (answer.statusCode() >= 400) {
        throw new IOException(answer.statusCode() + " at " + answer.uri());
      }
      return answer;
    }

    HttpResponse<byte[]> get(String path) throws IOException, InterruptedException {
      return send(HttpRequest.newBuilder(URI.create(base + path)));
    }

    String text(String path) throws IOException, InterruptedException {
      return new String(get(path).body(), java.nio.charset.StandardCharsets.UTF_8);
    }

    void begin() throws IOException, InterruptedException {
      token = found(TOKEN, text("/"));
    }

    String takeIn() throws IOException, InterruptedException {
      byte[] body = WebShop.multipart(token, "job", "load.pdf", job);
      HttpRequest.Builder request =
          HttpRequest.newBuilder(URI.create(base + "/jobs"))
              .header("Content-Type", "multipart/form-data; boundary=----selvage-test-boundary")
              .POST(HttpRequest.BodyPublishers.ofByteArray(body));
      return send(request).uri().getPath();
    }

    String change(String review, String page, String what)
        throws IOException, InterruptedException {
      String key = found(KEY, page).replace("&amp;", "&");
      String body =
          "seen="
              + found(VERSION, page)
              + "&do="
              + what
              + "&inks="
              + java.net.URLEncoder.encode(key, java.nio.charset.StandardCharsets.UTF_8);
      HttpRequest.Builder request =
          HttpRequest.newBuilder(URI.create(base + review + "/pages/1/set"))
              .header("HX-Request", "true")
              .header(Guard.CSRF_HEADER, token)
              .header("Content-Type", "application/x-www-form-urlencoded")
              .POST(HttpRequest.BodyPublishers.ofString(body));
      return new String(send(request).body(), java.nio.charset.StandardCharsets.UTF_8);
    }
  }

  private static String found(Pattern pattern, String text) {
    Matcher matcher = pattern.matcher(text);
    if (!matcher.find()) {
      throw new IllegalStateException("no " + pattern);
    }
    return matcher.group(1);
  }

  private void first(int times) throws IOException, InterruptedException {
    double[] set = new double[times];
    double[] picture = new double[times];
    List<Double> spots = new ArrayList<>();
    List<Double> changes = new ArrayList<>();
    List<Double> changesWithMap = new ArrayList<>();
    for (int i = 0; i < times; i++) {
      Visitor visitor = new Visitor();
      visitor.begin();
      long start = System.nanoTime();
      String review = visitor.takeIn();
      String page = visitor.text(review);
      set[i] = seconds(start);
      visitor.get(review + "/pages/1/picture.png");
      picture[i] = seconds(start);
      System.out.printf(
          Locale.ROOT, "upload %d: set %.3f s, picture %.3f s%n", i + 1, set[i], picture[i]);
      for (int k = 0; k < 20; k++) {
        long asked = System.nanoTime();
        visitor.get(review + "/pages/1/spot?x=" + (31 * k + 20) + "&y=" + (43 * k + 20));
        spots.add(seconds(asked));
      }
      for (int k = 0; k < 10; k++) {
        long asked = System.nanoTime();
        page = visitor.change(review, page, k % 2 == 0 ? "drop" : "undo");
        changes.add(seconds(asked));
        visitor.get(review + "/pages/1/map");
        changesWithMap.add(seconds(asked));
      }
    }
    print("upload to set", asList(set));
    print("upload to picture", asList(picture));
    print("ink under the pointer", spots);
    print("change of the set", changes);
    print("change and map", changesWithMap);
  }

  private void load(int seconds) throws IOException, InterruptedException {
    Visitor first = new Visitor();
    first.begin();
    String review = first.takeIn();
    first.text(review);
    List<Double> pages = Collections.synchronizedList(new ArrayList<>());
    List<Double> uploads = Collections.synchronizedList(new ArrayList<>());
    List<String> errors = Collections.synchronizedList(new ArrayList<>());
    AtomicBoolean isOver = new AtomicBoolean();
    CountDownLatch ended = new CountDownLatch(BROWSING + UPLOADING);
    String[] visited = {
      "/",
      review,
      "/comparison",
      review + "/pages/1/spot?x=100&y=100",
      "/assets/style.css",
      "/sign-in"
    };
    for (int i = 0; i < BROWSING + UPLOADING; i++) {
      int number = i;
      Thread thread =
          new Thread(
              () -> {
                try {
                  Visitor visitor = new Visitor();
                  visitor.begin();
                  for (int turn = number; !isOver.get(); turn++) {
                    long start = System.nanoTime();
                    if (number < BROWSING) {
                      visitor.get(visited[turn % visited.length]);
                      pages.add(seconds(start));
                      Thread.sleep(700 + 37L * number % 600);
                    } else {
                      visitor.text(visitor.takeIn());
                      uploads.add(seconds(start));
                      Thread.sleep(2000);
                    }
                  }
                } catch (IOException | RuntimeException e) {
                  errors.add(String.valueOf(e));
                } catch (InterruptedException e) {
                  Thread.currentThread().interrupt();
                } finally {
                  ended.countDown();
                }
              });
      thread.setDaemon(true);
      thread.start();
    }
    Thread.sleep(1000L * seconds);
    isOver.set(true);
    ended.await();
    print("pages, " + BROWSING + " browsing", pages);
    print("upload to page, " + UPLOADING + " uploading", uploads);
    System.out.println("errors: " + errors.size() + (errors.isEmpty() ? "" : " " + errors.get(0)));
  }

  private static double seconds(long start) {
    return (System.nanoTime() - start) / 1e9;
  }

  private static List<Double> asList(double[] values) {
    return new ArrayList<>(Arrays.stream(values).boxed().toList());
  }

  private static void print(String what, List<Double> values) {
    List<Double> sorted = new ArrayList<>(values);
    Collections.sort(sorted);
    System.out.printf(
        Locale.ROOT,
        "%-32s n %5d  median %7.1f ms  95th %7.1f ms  most %7.1f ms%n",
        what,
        sorted.size(),
        1000 * sorted.get(sorted.size() / 2),
        1000 * sorted.get(Math.min(sorted.size() - 1, (int) (0.95 * sorted.size()))),
        1000 * sorted.get(sorted.size() - 1));
  }
}
