package selvage.web;

import static org.assertj.core.api.Assertions.assertThat;
import static org.assertj.core.api.Assertions.assertThatThrownBy;

import java.io.IOException;
import java.io.InputStream;
import java.io.OutputStream;
import java.net.HttpCookie;
import java.net.InetAddress;
import java.net.Socket;
import java.net.http.HttpRequest;
import java.net.http.HttpResponse;
import java.nio.charset.StandardCharsets;
import java.nio.file.Files;
import java.nio.file.Path;
import java.util.List;
import java.util.Map;
import java.util.Set;
import java.util.stream.Stream;
import org.junit.jupiter.api.AfterAll;
import org.junit.jupiter.api.BeforeAll;
import org.junit.jupiter.api.Test;
import org.junit.jupiter.api.TestInstance;
import org.junit.jupiter.api.io.TempDir;
import selvage.finding.InputException;

/** What an attacker on the shop's network, or a page elsewhere on the web, would try. */
@TestInstance(TestInstance.Lifecycle.PER_CLASS)
class SecurityHttpTest {
  private static final long MOST_UPLOAD = 2_000_000;
  private WebShop shop;

  @BeforeAll
  void open(@TempDir Path root) throws Exception {
    shop = WebShop.open(root, MOST_UPLOAD);
  }

  @AfterAll
  void close() {
    shop.close();
  }

  /** A request as it goes over the wire, which no client library would send so. */
  private String raw(String request) throws IOException {
    try (Socket socket = new Socket(InetAddress.getLoopbackAddress(), shop.server.port())) {
      socket.setSoTimeout(20_000);
      OutputStream out = socket.getOutputStream();
      out.write(request.getBytes(StandardCharsets.ISO_8859_1));
      out.flush();
      InputStream in = socket.getInputStream();
      return new String(in.readAllBytes(), StandardCharsets.UTF_8);
    }
  }

  private String rawGet(String path, String host) throws IOException {
    return raw("GET " + path + " HTTP/1.1\r\nHost: " + host + "\r\nConnection: close\r\n\r\n");
  }

  @Test
  void everyPage_anyAnswer_allowsNoForeignScriptsAndNoFrames() throws Exception {
    for (String path : List.of("/", "/sign-in", "/nothing/here", "/assets/app.js")) {
      HttpResponse<String> answer = shop.get(path);
      String policy = answer.headers().firstValue("Content-Security-Policy").orElse("");
      assertThat(policy)
          .as(path)
          .contains("default-src 'none'", "script-src 'self'", "frame-ancestors 'none'")
          .doesNotContain("unsafe");
      assertThat(answer.headers().firstValue("X-Content-Type-Options"))
          .as(path)
          .hasValue("nosniff");
      assertThat(answer.body()).as(path).doesNotContainPattern("\\son[a-z]+=\"");
    }
  }

  @Test
  void form_ofAnotherSite_changesNothing() throws Exception {
    String token = shop.token();
    for (String header : List.of("Origin: http://evil.example", "Sec-Fetch-Site: cross-site")) {
      String[] parts = header.split(": ", 2);
      HttpResponse<String> answer =
          shop.send(
              shop.request("/sign-in")
                  .header(parts[0], parts[1])
                  .header("Content-Type", "application/x-www-form-urlencoded")
                  .POST(HttpRequest.BodyPublishers.ofString("csrf=" + token + "&name=Mallory"))
                  .build());
      assertThat(answer.statusCode()).as(header).isEqualTo(403);
      assertThat(shop.get("/").body()).doesNotContain("Mallory");
    }
  }

  @Test
  void form_withoutTheSessionsToken_changesNothing() throws Exception {
    for (String token : List.of("", "csrf=", "csrf=0000", "csrf=" + "0".repeat(64))) {
      HttpResponse<String> answer =
          shop.send(
              shop.request("/sign-in")
                  .header("Content-Type", "application/x-www-form-urlencoded")
                  .POST(HttpRequest.BodyPublishers.ofString(token + "&name=Mallory"))
                  .build());
      assertThat(answer.statusCode()).as(token).isEqualTo(403);
    }
    assertThat(shop.get("/").body()).doesNotContain("Mallory");
  }

  @Test
  void request_underAForeignName_isRefused() throws Exception {
    assertThat(rawGet("/", "127.0.0.1:" + shop.server.port())).startsWith("HTTP/1.1 200");
    assertThat(rawGet("/", "localhost")).startsWith("HTTP/1.1 200");
    assertThat(rawGet("/", "rebound.example")).startsWith("HTTP/1.1 403");
    assertThat(rawGet("/", "127.0.0.1.evil.example")).startsWith("HTTP/1.1 403");
  }

  @Test
  void path_climbingOut_findsNothing() throws Exception {
    Files.writeString(shop.root.resolve("secret.txt"), "the-secret-of-the-shop");
    String id = "0123456789abcdef0123456789abcdef";
    for (String climb :
        List.of(
            "..",
            "../..",
            "..%2f..%2fsecret.txt",
            "%2e%2e/%2e%2e/secret.txt",
            "..\\..\\secret.txt",
            "....//secret.txt",
            "%00",
            "/etc/passwd",
            "..;/secret.txt",
            "%252e%252e%252fsecret.txt")) {
      for (String path :
          List.of(
              "/assets/" + climb,
              "/review/" + climb,
              "/review/" + id + "/pages/" + climb,
              "/review/" + climb + "/pages/1/picture.png",
              "/proofs/" + climb,
              "/proofs/" + climb + "/proof.pdf",
              "/scores/" + climb,
              "/comparison?from=" + climb + "&device=" + climb,
              "/api/v1/jobs/" + climb,
              "/" + climb)) {
        String answer = rawGet(path.replace(" ", "%20"), "localhost");
        assertThat(answer)
            .as(path)
            .doesNotContain("the-secret-of-the-shop")
            .doesNotContain("root:x:")
            .doesNotStartWith("HTTP/1.1 5");
      }
    }
  }

  @Test
  void upload_underAnyName_staysInItsFolder() throws Exception {
    byte[] job = Files.readAllBytes(WebShop.DEMO_JOB);
    for (String name :
        List.of(
            "../../../escaped.pdf", "/tmp/escaped.pdf", "..\\..\\escaped.pdf", "....", "a/../b")) {
      HttpResponse<String> answer = shop.upload("/jobs", "job", name, job);
      assertThat(answer.statusCode()).as(name).isEqualTo(200);
    }
    try (Stream<Path> all = Files.walk(shop.root)) {
      List<Path> outside =
          all.filter(Files::isRegularFile)
              .filter(file -> file.getFileName().toString().contains("escaped"))
              .filter(file -> !file.startsWith(shop.root.resolve("desk").resolve("reviews")))
              .toList();
      assertThat(outside).isEmpty();
    }
    assertThat(Path.of("/tmp/escaped.pdf")).doesNotExist();
  }

  @Test
  void upload_tooLarge_isRefusedAndLeavesNothing() throws Exception {
    HttpResponse<String> answer =
        shop.upload("/jobs", "job", "large.pdf", new byte[(int) MOST_UPLOAD + 1000]);
    assertThat(answer.statusCode()).isEqualTo(413);
    assertThat(answer.body()).contains("larger than this server takes");
    try (Stream<Path> left = Files.list(shop.root.resolve("desk").resolve("uploads"))) {
      assertThat(left).isEmpty();
    }
  }

  @Test
  void job_namedLikeHtml_isShownAsText() throws Exception {
    String name = "<img src=x onerror=alert(1)>&quot;.pdf";
    HttpResponse<String> answer =
        shop.upload("/jobs", "job", name, Files.readAllBytes(WebShop.DEMO_JOB));
    assertThat(answer.statusCode()).isEqualTo(200);
    assertThat(answer.body()).doesNotContain("<img src=x");
    assertThat(shop.get("/").body()).doesNotContain("<img src=x").doesNotContain("alert(1)>");
  }

  @Test
  void spot_namedLikeHtml_isShownAsText() throws Exception {
    String spot = "#3Cscript#3Ealert#281#29#3C#2Fscript#3E";
    String content = "/Spot cs 1 scn 20 20 200 300 re f";
    String pdf =
        TinyPdf.of(
            content,
            "/ColorSpace<</Spot[/Separation/"
                + spot
                + "/DeviceCMYK<</FunctionType 2/Domain[0 1]"
                + "/C0[0 0 0 0]/C1[0 1 1 0]/N 1>>]>>",
            "");
    HttpResponse<String> answer =
        shop.upload("/jobs", "job", "spot.pdf", pdf.getBytes(StandardCharsets.ISO_8859_1));
    assertThat(answer.statusCode()).isEqualTo(200);
    assertThat(answer.body())
        .contains("&lt;script&gt;alert(1)&lt;/script&gt;")
        .doesNotContain("<script>alert(1)");
    String strip = shop.get(answer.uri().getPath() + "/pages/1/strip").body();
    assertThat(strip).doesNotContain("<script>alert(1)");
  }

  @Test
  void job_withScripts_runsNone() throws Exception {
    String pdf =
        TinyPdf.of(
            "0 1 0 0 k 20 20 200 300 re f",
            "",
            "/OpenAction<</S/JavaScript/JS(app.launchURL\\(\"http://evil.example/\"\\);)>>"
                + "/AA<</WC<</S/Launch/F(/bin/sh)>>>>");
    HttpResponse<String> answer =
        shop.upload("/jobs", "job", "scripts.pdf", pdf.getBytes(StandardCharsets.ISO_8859_1));
    assertThat(answer.statusCode()).isEqualTo(200);
    assertThat(answer.body()).contains("M100").doesNotContain("launchURL");
  }

  @Test
  void session_fixedBefore_isAnotherAfterSigningIn(@TempDir Path other) throws Exception {
    new Users(other.resolve("users.txt")).set("Ada Operator", "a long enough password");
    try (WebServer guarded = WebShop.start(WebShop.settings(other, MOST_UPLOAD))) {
      String base = "http://127.0.0.1:" + guarded.port();
      java.net.CookieManager cookies = new java.net.CookieManager();
      java.net.http.HttpClient browser =
          java.net.http.HttpClient.newBuilder()
              .cookieHandler(cookies)
              .followRedirects(java.net.http.HttpClient.Redirect.NORMAL)
              .build();
      HttpResponse<String> form =
          browser.send(
              HttpRequest.newBuilder(java.net.URI.create(base + "/")).build(),
              HttpResponse.BodyHandlers.ofString());
      assertThat(form.uri().getPath()).isEqualTo("/sign-in");
      String before = session(cookies);
      String token = form.body().replaceAll("(?s).*data-token=\"([0-9a-f]+)\".*", "$1");
      HttpResponse<String> wrong = signIn(browser, base, token, "a wrong password, alas");
      assertThat(wrong.statusCode()).isEqualTo(401);
      HttpResponse<String> right = signIn(browser, base, token, "a long enough password");
      assertThat(right.statusCode()).isEqualTo(200);
      assertThat(right.body()).contains("Ada Operator");
      assertThat(session(cookies)).isNotEqualTo(before);

      // Whoever planted the old session has nothing.
      HttpResponse<String> thief =
          java.net.http.HttpClient.newHttpClient()
              .send(
                  HttpRequest.newBuilder(java.net.URI.create(base + "/"))
                      .header("Cookie", WebServer.COOKIE + "=" + before)
                      .build(),
                  HttpResponse.BodyHandlers.ofString());
      assertThat(thief.statusCode()).isEqualTo(302);
    }
  }

  private static String session(java.net.CookieManager cookies) {
    return cookies.getCookieStore().getCookies().stream()
        .filter(cookie -> cookie.getName().equals(WebServer.COOKIE))
        .map(HttpCookie::getValue)
        .findFirst()
        .orElseThrow();
  }

  private static HttpResponse<String> signIn(
      java.net.http.HttpClient browser, String base, String token, String password)
      throws IOException, InterruptedException {
    String body =
        "csrf="
            + token
            + "&name=Ada+Operator&password="
            + java.net.URLEncoder.encode(password, StandardCharsets.UTF_8);
    return browser.send(
        HttpRequest.newBuilder(java.net.URI.create(base + "/sign-in"))
            .header("Content-Type", "application/x-www-form-urlencoded")
            .POST(HttpRequest.BodyPublishers.ofString(body))
            .build(),
        HttpResponse.BodyHandlers.ofString());
  }

  @Test
  void start_forOthersWithoutAPassword_isRefused(@TempDir Path other) throws Exception {
    WebSettings usual = WebShop.settings(other, MOST_UPLOAD);
    WebSettings open =
        new WebSettings(
            InetAddress.getByName("0.0.0.0"),
            0,
            Set.of(),
            usual.users(),
            usual.desk(),
            MOST_UPLOAD,
            usual.shop());
    assertThatThrownBy(() -> WebShop.start(open))
        .isInstanceOf(InputException.class)
        .hasMessageContaining("nobody has a password");
    new Users(usual.users()).set("Ada", "a long enough password");
    WebShop.start(open).close();
  }

  @Test
  void cookie_ofASession_isForThisSiteAndNotForScripts() throws Exception {
    String answer = rawGet("/", "localhost");
    assertThat(answer).containsPattern("Set-Cookie: selvage=[^\\r]*HttpOnly[^\\r]*SameSite=Strict");
  }

  @Test
  void form_withNonsense_isAnswered() throws Exception {
    String review = shop.takeDemo();
    for (Map<String, String> nonsense :
        List.of(
            Map.of("do", "explode"),
            Map.of("do", "drop", "inks", "not a mixture"),
            Map.of("do", "add", "inks", "Cyan=99999999"),
            Map.of("do", "add", "inks", "Cyan=1"),
            Map.of("do", "count", "count", "-7"),
            Map.of("do", "count", "count", "201"),
            Map.of("do", "move", "inks", "Cyan=51000", "to", "999999999"))) {
      Map<String, String> fields = new java.util.HashMap<>(nonsense);
      fields.put("seen", "1");
      HttpResponse<String> answer = shop.post(review + "/pages/1/set", fields);
      assertThat(answer.statusCode()).as(nonsense.toString()).isEqualTo(422);
    }
  }
}
