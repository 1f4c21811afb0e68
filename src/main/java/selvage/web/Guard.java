package selvage.web;

import io.javalin.http.Context;
import io.javalin.http.ForbiddenResponse;
import io.javalin.http.HandlerType;
import io.javalin.http.HttpStatus;
import io.javalin.http.UnauthorizedResponse;
import java.net.InetAddress;
import java.nio.charset.StandardCharsets;
import java.security.MessageDigest;
import java.security.SecureRandom;
import java.util.HexFormat;
import java.util.Locale;
import java.util.Set;
import selvage.finding.InputException;

/**
 * Lets through what the shop's own pages and systems ask, and nothing else: the server's own names
 * only (against a foreign name that is made to point here), users who have signed in where any are
 * known, and changes only from the server's own pages.
 */
final class Guard {
  static final String CSRF_FIELD = "csrf";
  static final String CSRF_HEADER = "X-Selvage-Token";
  private static final String TOKEN = "token";
  private static final String USER = "user";
  private static final int TOKEN_BYTES = 32;

  /** How long a session of somebody who said a name outlives the last request. */
  private static final int KNOWN_SECONDS = 12 * 60 * 60;

  /** The same of anybody else: sessions take memory, and any request can begin one. */
  private static final int UNKNOWN_SECONDS = 60 * 60;

  private static final String POLICY =
      "default-src 'none'; script-src 'self'; style-src 'self'; img-src 'self' blob: data:;"
          + " font-src 'self'; connect-src 'self'; form-action 'self'; base-uri 'none';"
          + " frame-ancestors 'none'";

  private final WebSettings settings;
  private final Users users;
  private final Set<String> hosts;
  private final SecureRandom random = new SecureRandom();
  private final SignIns signIns;

  Guard(WebSettings settings) {
    this.settings = settings;
    this.users = new Users(settings.users());
    this.hosts = HostNames.of(settings.bind(), settings.hosts());
    this.signIns = new SignIns(users);
  }

  /** Before every request. */
  void check(Context context) throws InputException {
    setHeaders(context);
    String host = HostNames.withoutPort(context.header("Host"));
    if (!hosts.contains(host)) {
      throw new ForbiddenResponse(
          "This server does not answer to the name "
              + host
              + ". Start it with --host NAME to allow another.");
    }
    boolean isOpen =
        context.path().startsWith("/assets/") || context.path().equals(SignInPage.PATH);
    boolean isApi = isApi(context);
    if (mustSignIn() && !isOpen && user(context).isEmpty()) {
      if (isApi) {
        checkApiUser(context);
      } else {
        sendToSignIn(context);
        return;
      }
    }
    if (isChange(context)) {
      checkOrigin(context, host);
      if (!isApi || context.cookie(WebServer.COOKIE) != null) {
        checkToken(context, isApi);
      }
    }
  }

  static boolean isApi(Context context) {
    return context.path().startsWith("/api/");
  }

  private static boolean isChange(Context context) {
    HandlerType method = context.method();
    return !method.equals(HandlerType.GET) && !method.equals(HandlerType.HEAD);
  }

  private static void setHeaders(Context context) {
    context.header("Content-Security-Policy", POLICY);
    context.header("X-Content-Type-Options", "nosniff");
    context.header("X-Frame-Options", "DENY");
    context.header("Referrer-Policy", "same-origin");
    context.header("Cross-Origin-Opener-Policy", "same-origin");
    context.header("Cross-Origin-Resource-Policy", "same-origin");
    context.header("Cache-Control", "no-store");
  }

  /** Whether anybody has to sign in. */
  boolean mustSignIn() throws InputException {
    return !settings.bind().isLoopbackAddress() || !users.isEmpty();
  }

  /** Browsers say where a form comes from; what says nothing is no browser. */
  private static void checkOrigin(Context context, String host) {
    String site = context.header("Sec-Fetch-Site");
    String origin = context.header("Origin");
    boolean isForeign =
        (site != null && !site.equals("same-origin") && !site.equals("none"))
            || (origin != null && !HostNames.ofOrigin(origin).equals(context.header("Host")));
    if (isForeign) {
      throw new ForbiddenResponse("This change was asked for by another site than " + host + ".");
    }
  }

  private void checkToken(Context context, boolean isApi) {
    String sent = context.header(CSRF_HEADER);
    if (sent == null && !isApi) {
      sent = context.formParam(CSRF_FIELD);
    }
    String own = context.sessionAttribute(TOKEN);
    boolean isOwn =
        sent != null
            && own != null
            && MessageDigest.isEqual(
                sent.getBytes(StandardCharsets.UTF_8), own.getBytes(StandardCharsets.UTF_8));
    if (!isOwn) {
      throw new ForbiddenResponse(
          "The page that asked for this change is too old, or no page of this server. Load it again"
              + " and repeat the change.");
    }
  }

  private void checkApiUser(Context context) throws InputException {
    var given = context.basicAuthCredentials();
    if (given == null || !signIns.admits(context.ip(), given.getUsername(), given.getPassword())) {
      context.header("WWW-Authenticate", "Basic realm=\"Selvage\", charset=\"UTF-8\"");
      throw new UnauthorizedResponse("Give a user's name and password (HTTP Basic).");
    }
    context.attribute(USER, given.getUsername());
  }

  private static void sendToSignIn(Context context) {
    if (context.header("HX-Request") != null) {
      context.header("HX-Redirect", SignInPage.PATH);
      context.status(HttpStatus.UNAUTHORIZED).skipRemainingHandlers();
    } else if (isChange(context)) {
      throw new UnauthorizedResponse("Sign in first.");
    } else {
      context.redirect(SignInPage.PATH);
      context.skipRemainingHandlers();
    }
  }

  /**
   * Signs in.
   *
   * @return whether name and password belong together
   */
  boolean signIn(Context context, String name, String password) throws InputException {
    if (!signIns.admits(context.ip(), name, password)) {
      return false;
    }
    enter(context, name);
    return true;
  }

  /** Begins a session of a name's own; what was known of the browser before is void. */
  void enter(Context context, String name) {
    if (context.req().getSession(false) != null) {
      context.req().changeSessionId();
    }
    context.sessionAttribute(TOKEN, newToken());
    context.sessionAttribute(USER, name);
    context.req().getSession().setMaxInactiveInterval(KNOWN_SECONDS);
  }

  static void signOut(Context context) {
    var session = context.req().getSession(false);
    if (session != null) {
      session.invalidate();
    }
  }

  /** Who asks; empty where nobody is known. */
  static String user(Context context) {
    String user = context.attribute(USER);
    if (user == null && context.req().getSession(false) != null) {
      user = context.sessionAttribute(USER);
    }
    return user == null ? "" : user;
  }

  /** Who asks, as changes are kept with. */
  static String actor(Context context) {
    String user = user(context);
    return user.isEmpty() ? "at " + context.ip() : user;
  }

  /** The session's token; begins a session where there is none. */
  String token(Context context) {
    String token = context.sessionAttribute(TOKEN);
    if (token == null) {
      token = newToken();
      context.sessionAttribute(TOKEN, token);
      context.req().getSession().setMaxInactiveInterval(UNKNOWN_SECONDS);
    }
    return token;
  }

  private String newToken() {
    byte[] bytes = new byte[TOKEN_BYTES];
    random.nextBytes(bytes);
    return HexFormat.of().formatHex(bytes);
  }

  /**
   * Makes sure that nothing is served to others without a password.
   *
   * @throws InputException where that would be so
   */
  static void checkPlace(InetAddress bind, Users users) throws InputException {
    if (!bind.isLoopbackAddress() && users.isEmpty()) {
      throw InputException.of(
          "--bind " + bind.getHostAddress().toLowerCase(Locale.ROOT),
          "other machines could reach this server, and nobody has a password; give a user one first"
              + " with the command password, or leave --bind out");
    }
  }
}
