package selvage.web;

import java.io.ByteArrayOutputStream;
import java.io.IOException;
import java.io.PrintWriter;
import java.io.StringWriter;
import java.net.CookieManager;
import java.net.InetAddress;
import java.net.URI;
import java.net.http.HttpClient;
import java.net.http.HttpRequest;
import java.net.http.HttpResponse;
import java.net.http.HttpResponse.BodyHandlers;
import java.nio.charset.StandardCharsets;
import java.nio.file.Files;
import java.nio.file.Path;
import java.time.Clock;
import java.time.Duration;
import java.util.List;
import java.util.Map;
import java.util.Optional;
import java.util.OptionalInt;
import java.util.Set;
import java.util.regex.Matcher;
import java.util.regex.Pattern;
import selvage.finding.InputException;
import selvage.hotfolder.EventLog;
import selvage.hotfolder.FolderSettings;
import selvage.hotfolder.WatchSettings;

/** A server with a shop in a temporary place, and a browser of the plainest kind. */
final class WebShop implements AutoCloseable {
  static final Path DEMO_JOB = Path.of("testdata/demo-job.pdf");
  private static final Path DEMO_SPOTS = Path.of("testdata/demo-spots.txt");
  private static final Pattern TOKEN = Pattern.compile("data-token=\"([0-9a-f]+)\"");
  private static final String BOUNDARY = "----selvage-test-boundary";

  final Path root;
  final WebServer server;
  private final HttpClient client =
      HttpClient.newBuilder()
          .cookieHandler(new CookieManager())
          .followRedirects(HttpClient.Redirect.NORMAL)
          .connectTimeout(Duration.ofSeconds(20))
          .build();

  private WebShop(Path root, WebServer server) {
    this.root = root;
    this.server = server;
  }

  static WebShop open(Path root) throws InputException, IOException {
    return open(root, WebSettings.USUAL_UPLOAD_BYTES);
  }

  static WebShop open(Path root, long mostUploadBytes) throws InputException, IOException {
    return new WebShop(root, start(settings(root, mostUploadBytes)));
  }

  static WebServer start(WebSettings settings) throws InputException, IOException {
    EventLog log =
        new EventLog(new PrintWriter(new StringWriter()), EventLog.Form.TEXT, Clock.systemUTC());
    return WebServer.start(settings, log, Clock.systemUTC());
  }

  static WebSettings settings(Path root, long mostUploadBytes) {
    return new WebSettings(
        InetAddress.getLoopbackAddress(),
        0,
        Set.of(),
        root.resolve("users.txt"),
        root.resolve("desk"),
        mostUploadBytes,
        new WatchSettings(
            List.of(folder(root)),
            root.resolve("ledger.db").toString(),
            2,
            512,
            Duration.ofMillis(200),
            Duration.ofMillis(100),
            OptionalInt.empty()));
  }

  private static FolderSettings folder(Path root) {
    return new FolderSettings(
        "house",
        new FolderSettings.Places(
            root.resolve("in"),
            root.resolve("out"),
            root.resolve("refused"),
            Optional.of(root.resolve("measured")),
            root.resolve("done")),
        new FolderSettings.Stamping(
            Optional.of("FOGRA39"),
            "basic",
            24,
            "handheld-spot",
            "auto",
            false,
            150,
            List.of(DEMO_SPOTS.toAbsolutePath()),
            List.of()),
        "iso-12647-7-2016",
        Duration.ofMinutes(2),
        Optional.empty());
  }

  String base() {
    return "http://127.0.0.1:" + server.port();
  }

  HttpRequest.Builder request(String path) {
    return HttpRequest.newBuilder(URI.create(base() + path)).timeout(Duration.ofSeconds(60));
  }

  HttpResponse<String> send(HttpRequest request) throws IOException, InterruptedException {
    return client.send(request, BodyHandlers.ofString());
  }

  HttpResponse<String> get(String path) throws IOException, InterruptedException {
    return send(request(path).build());
  }

  HttpResponse<byte[]> bytes(String path) throws IOException, InterruptedException {
    return client.send(request(path).build(), BodyHandlers.ofByteArray());
  }

  /** The token of this browser's session. */
  String token() throws IOException, InterruptedException {
    Matcher matcher = TOKEN.matcher(get("/").body());
    if (!matcher.find()) {
      throw new AssertionError("no token in the page");
    }
    return matcher.group(1);
  }

  /** Sends a form as a page of the server would. */
  HttpResponse<String> post(String path, Map<String, String> fields)
      throws IOException, InterruptedException {
    StringBuilder body = new StringBuilder("csrf=" + token());
    fields.forEach(
        (name, value) ->
            body.append('&')
                .append(name)
                .append('=')
                .append(java.net.URLEncoder.encode(value, StandardCharsets.UTF_8)));
    return send(
        request(path)
            .header("Content-Type", "application/x-www-form-urlencoded")
            .POST(HttpRequest.BodyPublishers.ofString(body.toString()))
            .build());
  }

  /** Uploads a file as a page of the server would. */
  HttpResponse<String> upload(String path, String field, String name, byte[] file)
      throws IOException, InterruptedException {
    return send(
        request(path)
            .header("Content-Type", "multipart/form-data; boundary=" + BOUNDARY)
            .POST(HttpRequest.BodyPublishers.ofByteArray(multipart(token(), field, name, file)))
            .build());
  }

  static byte[] multipart(String token, String field, String name, byte[] file) throws IOException {
    ByteArrayOutputStream body = new ByteArrayOutputStream();
    String head =
        "--"
            + BOUNDARY
            + "\r\nContent-Disposition: form-data; name=\"csrf\"\r\n\r\n"
            + token
            + "\r\n--"
            + BOUNDARY
            + "\r\nContent-Disposition: form-data; name=\""
            + field
            + "\"; filename=\""
            + name.replace("\"", "%22")
            + "\"\r\nContent-Type: application/octet-stream\r\n\r\n";
    body.write(head.getBytes(StandardCharsets.UTF_8));
    body.write(file);
    body.write(("\r\n--" + BOUNDARY + "--\r\n").getBytes(StandardCharsets.UTF_8));
    return body.toByteArray();
  }

  /** Takes the demo's job in, and returns the address of its review. */
  String takeDemo() throws IOException, InterruptedException {
    HttpResponse<String> answer =
        upload("/jobs", "job", "demo-job.pdf", Files.readAllBytes(DEMO_JOB));
    return answer.uri().getPath();
  }

  @Override
  public void close() {
    server.close();
  }
}
