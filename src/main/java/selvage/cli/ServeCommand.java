package selvage.cli;

import java.io.IOException;
import java.io.InputStream;
import java.io.PrintWriter;
import java.net.InetAddress;
import java.net.UnknownHostException;
import java.nio.file.Files;
import java.nio.file.Path;
import java.nio.file.StandardCopyOption;
import java.time.Clock;
import java.time.Duration;
import java.util.HashSet;
import java.util.List;
import java.util.Locale;
import java.util.Objects;
import java.util.OptionalInt;
import java.util.Set;
import java.util.concurrent.Callable;
import java.util.concurrent.CountDownLatch;
import java.util.logging.Level;
import java.util.logging.Logger;
import picocli.CommandLine.Model.CommandSpec;
import selvage.cli.Declaration.Value;
import selvage.finding.InputException;
import selvage.hotfolder.EventLog;
import selvage.hotfolder.Watch;
import selvage.hotfolder.WatchSettings;
import selvage.web.WebServer;
import selvage.web.WebSettings;

/** {@code serve --port N}: the web pages, and the hot folder in the same process if wanted. */
final class ServeCommand implements Callable<Integer> {
  /** The file of users where nothing is said. */
  static final String USERS = "selvage-users.txt";

  private static final Logger LOG = Logger.getLogger(ServeCommand.class.getName());
  private static final String INCOMING = "jobs/in";
  private static final Duration GRACE = Duration.ofSeconds(20);
  private static final long MEGABYTE = 1L << 20;

  private final Declaration declaration =
      new Declaration(
          this,
          "Serves the pages for the operator's review and the supervisor's comparison, and the same"
              + " as JSON under /api. Runs until it is stopped.");

  private final Value<Integer> port =
      declaration.option(
          Integer.class,
          "N",
          "8780",
          "The port to listen on; 0 for any that is free. Default: ${DEFAULT-VALUE}.",
          "--port");

  private final Value<String> bind =
      declaration.option(
          String.class,
          "ADDRESS",
          "127.0.0.1",
          "The address to listen on; another than the loopback address only once a user has a"
              + " password. Default: ${DEFAULT-VALUE}.",
          "--bind");

  private final Value<List<String>> hosts =
      declaration.options(
          String.class,
          "NAME",
          "A further name by which browsers address this server. May be given several times.",
          "--host");

  private final Value<Path> users =
      declaration.option(
          Path.class,
          "FILE",
          USERS,
          "Those who may sign in; made by the command password. Default: ${DEFAULT-VALUE}.",
          "--users");

  private final Value<Path> desk =
      declaration.option(
          Path.class,
          "DIR",
          null,
          "Where jobs under review are kept. Default: desk beside the first incoming folder.",
          "--desk");

  private final Value<Integer> mostUpload =
      declaration.option(
          Integer.class,
          "MB",
          "512",
          "The largest file that is taken. Default: ${DEFAULT-VALUE}.",
          "--max-upload");

  private final Value<Boolean> watching =
      declaration.flag("Watch the hot folders in the same process, too.", "--watch");

  private final WatchOptions options = new WatchOptions(declaration, INCOMING);

  ServeCommand() {
    declaration.help("-h", "--help");
    declaration.footer(
        "",
        "Jobs approved in the browser lie in the outgoing folder like those of the hot folder.",
        "Stop with SIGTERM or Ctrl-C.",
        "",
        "Results support, and do not replace, agreed standards, the instrument maker's",
        "instructions and the judgement of those who sign the proof.");
  }

  CommandSpec spec() {
    return declaration.spec();
  }

  @Override
  public Integer call() throws InputException, IOException, InterruptedException {
    WatchSettings shop = options.wanted(OptionalInt.empty());
    PrintWriter err = declaration.err();
    CountDownLatch stopping = new CountDownLatch(1);
    EventLog log = new EventLog(err, EventLog.Form.TEXT, Clock.systemUTC());
    try (WebServer server = WebServer.start(settings(shop), log, Clock.systemUTC())) {
      err.println("Serving on " + address(server.port()) + " (ledger " + shop.ledger() + ")");
      err.flush();
      Thread warming = new Thread(() -> warmUp(server), "warm-up");
      warming.setDaemon(true);
      warming.start();
      Watch watch =
          watching.get()
              ? new Watch(
                  shop, WatchOptions.workerCommand(shop.workerMegabytes()), log, Clock.systemUTC())
              : null;
      Thread stopper = new Thread(() -> stop(server, watch, stopping, err), "stop");
      Runtime.getRuntime().addShutdownHook(stopper);
      if (watch != null) {
        watch.run(false);
      }
      stopping.await();
    }
    return ExitStatus.DONE;
  }

  /** With the demo's job, which is in the jar. What goes wrong here goes wrong for no job. */
  private static void warmUp(WebServer server) {
    try (InputStream in = ServeCommand.class.getResourceAsStream("/demo/demo-job.pdf")) {
      if (in == null) {
        return;
      }
      Path job = Files.createTempFile("selvage-warm-up", ".pdf");
      try {
        Files.copy(in, job, StandardCopyOption.REPLACE_EXISTING);
        server.warmUp(job);
      } finally {
        Files.deleteIfExists(job);
      }
    } catch (InputException | IOException e) {
      LOG.log(Level.FINE, "not warmed up", e);
    }
  }

  private static void stop(
      WebServer server, Watch watch, CountDownLatch stopping, PrintWriter err) {
    try {
      if (watch != null) {
        watch.stop(GRACE);
      }
    } catch (InterruptedException e) {
      Thread.currentThread().interrupt();
    }
    server.close();
    stopping.countDown();
    err.flush();
    Runtime.getRuntime().halt(ExitStatus.DONE);
  }

  private String address(int listening) {
    String host = bind.get();
    return "http://" + (host.contains(":") ? "[" + host + "]" : host) + ":" + listening + "/";
  }

  private WebSettings settings(WatchSettings shop) throws InputException {
    InetAddress address;
    try {
      address = InetAddress.getByName(bind.get());
    } catch (UnknownHostException e) {
      throw InputException.of(
          "--bind " + bind.get(),
          "expected an address of this machine, found none of that name",
          e);
    }
    Path incoming = shop.folders().get(0).places().incoming();
    Path beside = Objects.requireNonNullElse(incoming.getParent(), incoming);
    Set<String> names = new HashSet<>();
    hosts.get().forEach(name -> names.add(name.toLowerCase(Locale.ROOT)));
    return new WebSettings(
        address,
        options.within("--port", port.get(), 0, 0, 65535),
        names,
        users.get(),
        desk.get() == null ? beside.resolve("desk") : desk.get().toAbsolutePath().normalize(),
        options.within("--max-upload", mostUpload.get(), 0, 1, 65536) * MEGABYTE,
        shop);
  }
}
