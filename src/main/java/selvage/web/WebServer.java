package selvage.web;

import io.javalin.Javalin;
import io.javalin.config.JavalinConfig;
import io.javalin.config.RoutesConfig;
import io.javalin.config.SizeUnit;
import java.io.IOException;
import java.nio.file.Files;
import java.nio.file.Path;
import java.time.Clock;
import java.util.List;
import org.eclipse.jetty.ee10.servlet.ServletContextHandler;
import org.eclipse.jetty.ee10.servlet.SessionHandler;
import org.eclipse.jetty.http.HttpCookie;
import org.eclipse.jetty.util.thread.QueuedThreadPool;
import selvage.finding.InputException;
import selvage.hotfolder.DeskWork;
import selvage.hotfolder.EventLog;
import selvage.ledger.Ledger;
import selvage.review.Desk;
import selvage.review.Review;

/** Serves the pages until it is closed. */
public final class WebServer implements AutoCloseable {
  static final String COOKIE = "selvage";
  private static final int MOST_THREADS = 64;

  /** Of a form without files. */
  private static final long MOST_FORM_BYTES = 1L << 20;

  private final Javalin server;
  private final Shop shop;

  /** What the pages work with. */
  record Shop(WebSettings settings, DeskWork work, Desk desk, Ledger ledger) {
    void close() {
      desk.close();
      work.close();
      ledger.close();
    }
  }

  private WebServer(Javalin server, Shop shop) {
    this.server = server;
    this.shop = shop;
  }

  /**
   * Starts.
   *
   * @throws InputException where the address can't be listened on, the desk or the ledger can't be
   *     used, or other machines could come in without a password
   */
  public static WebServer start(WebSettings settings, EventLog log, Clock clock)
      throws InputException, IOException {
    Guard.checkPlace(settings.bind(), new Users(settings.users()));
    Path uploads = settings.uploads();
    try {
      Files.createDirectories(uploads);
    } catch (IOException e) {
      throw InputException.of(
          settings.desk().toString(), "can't be made: " + e.getMessage() + "; check --desk", e);
    }
    Shop shop = open(settings, log, clock);
    Guard guard = new Guard(settings);
    Assets assets = new Assets();
    Pages pages = new Pages(assets, guard);
    Javalin server =
        Javalin.create(
            config -> {
              prepare(config, settings, uploads);
              Failures.register(config.routes, pages);
              routes(config.routes, guard, assets, pages, shop);
            });
    try {
      server.start();
    } catch (RuntimeException e) {
      shop.close();
      throw InputException.of(
          settings.bind().getHostAddress() + ":" + settings.port(),
          "can't be listened on: " + e.getMessage() + "; choose another port or address",
          e);
    }
    return new WebServer(server, shop);
  }

  /**
   * Goes through the work of a review once, beside what is served.
   *
   * @param job any
   */
  public void warmUp(Path job) throws InputException, IOException {
    shop.desk().warmUp(job);
  }

  private static Shop open(WebSettings settings, EventLog log, Clock clock)
      throws InputException, IOException {
    DeskWork work = new DeskWork(settings.shop(), settings.desk().resolve("claims"), log, clock);
    work.prepare();
    Desk desk = new Desk(settings.desk(), work, clock);
    Ledger ledger = Ledger.open(settings.shop().ledger());
    for (Review review : desk.reviews()) {
      if (review.approval().isEmpty() && ledger.job(review.id()).isPresent()) {
        desk.settled(review);
      }
    }
    return new Shop(settings, work, desk, ledger);
  }

  private static void prepare(JavalinConfig config, WebSettings settings, Path uploads) {
    config.startup.showJavalinBanner = false;
    config.startup.startupWatcherEnabled = false;
    config.jetty.host = settings.bind().getHostAddress();
    config.jetty.port = settings.port();
    config.jetty.threadPool = new QueuedThreadPool(MOST_THREADS);
    config.jetty.multipartConfig.cacheDirectory(uploads.toString());
    config.jetty.multipartConfig.maxFileSize(settings.mostUploadBytes(), SizeUnit.BYTES);
    config.jetty.multipartConfig.maxTotalRequestSize(
        settings.mostUploadBytes() + MOST_FORM_BYTES, SizeUnit.BYTES);
    config.jetty.multipartConfig.maxInMemoryFileSize(1, SizeUnit.MB);
    config.jetty.modifyServletContextHandler(WebServer::prepareSessions);
    config.jetty.modifyHttpConfiguration(http -> http.setSendServerVersion(false));
    config.http.maxRequestSize = MOST_FORM_BYTES;
    config.http.generateEtags = false;
    config.http.prefer405over404 = true;
  }

  private static void prepareSessions(ServletContextHandler handler) {
    SessionHandler sessions = new SessionHandler();
    sessions.setSessionCookie(COOKIE);
    sessions.setHttpOnly(true);
    sessions.setSameSite(HttpCookie.SameSite.STRICT);
    handler.setSessionHandler(sessions);
  }

  private static void routes(
      RoutesConfig routes, Guard guard, Assets assets, Pages pages, Shop shop) {
    routes.before(guard::check);
    routes.get("/assets/{name}", assets::serve);
    SignInPage signIn = new SignInPage(pages, guard);
    routes.get(SignInPage.PATH, signIn::show);
    routes.post(SignInPage.PATH, signIn::signIn);
    routes.post("/sign-out", signIn::signOut);
    JobsPage.register(routes, pages, shop.desk(), shop.ledger());
    ReviewPage.register(routes, pages, shop.desk());
    ProofShelf shelf = new ProofShelf(shop.ledger(), shop.settings().shop());
    MeasurementDesk scoring =
        (folder, name, file, job) -> shop.work().score(folder, name, file, job).id();
    ProofPages.register(routes, pages, shelf, scoring, shop.settings().uploads());
    ScorePages.register(routes, pages, shelf);
    ComparisonPages.register(routes, pages, shop.ledger(), Clock.systemUTC());
    ApiPages.register(routes, pages, shelf);
    ApiSubmissions.register(routes, shelf, scoring, shop.desk(), shop.settings());
  }

  /** The API's own routes, for example {@code GET /api/v1/jobs}. */
  List<String> apiRoutes() {
    return server.unsafe.internalRouter.allHttpHandlers().stream()
        .map(parsed -> parsed.endpoint)
        .filter(endpoint -> endpoint.path.startsWith(ApiPages.ROOT))
        .map(endpoint -> endpoint.method.name() + " " + endpoint.path)
        .toList();
  }

  /** The port that is listened on. */
  public int port() {
    return server.port();
  }

  @Override
  public void close() {
    server.stop();
    shop.close();
  }
}
