package selvage.hotfolder;

import com.fasterxml.jackson.databind.ObjectMapper;
import com.fasterxml.jackson.databind.node.ArrayNode;
import com.fasterxml.jackson.databind.node.ObjectNode;
import java.io.IOException;
import java.nio.channels.FileChannel;
import java.nio.channels.OverlappingFileLockException;
import java.nio.file.DirectoryStream;
import java.nio.file.FileSystemException;
import java.nio.file.Files;
import java.nio.file.Path;
import java.nio.file.StandardOpenOption;
import java.time.Clock;
import java.time.Duration;
import java.util.ArrayList;
import java.util.List;
import java.util.Map;
import java.util.Optional;
import java.util.UUID;
import selvage.finding.InputException;
import selvage.ledger.JobRecord;
import selvage.strip.ChosenSet;
import selvage.workflow.FileDigest;

/**
 * Work that a person asks for at the desk: jobs approved for stamping, and measurements handed in.
 * It is settled as dropped files are, by a plan that is written down before any of it is done, into
 * the same folders and the same ledger; but nothing is refused into a folder, since the person is
 * there to be told. Safe for use by many threads, beside a watcher of the same folders.
 */
public final class DeskWork implements AutoCloseable {
  private final WatchSettings settings;
  private final Path claims;
  private final Filing filing;
  private final Shop shop;
  private final Metrics metrics = new Metrics();
  private final EventLog log;
  private FileChannel lockFile;

  /**
   * What was done.
   *
   * @param id of the job or the score in the ledger
   * @param outcome {@code stamped} or {@code scored}
   * @param text for people
   */
  public record Done(String id, String outcome, String text) {}

  /**
   * Prepares.
   *
   * @param settings checked already, see {@link SettingsCheck}
   * @param claims a folder of this work's own, where files lie while they are worked on
   */
  public DeskWork(WatchSettings settings, Path claims, EventLog log, Clock clock) {
    this.settings = settings;
    this.claims = claims;
    this.log = log;
    this.filing = new Filing(settings.ledger());
    this.shop = new Shop(settings, filing, log, metrics, clock);
  }

  /**
   * Makes missing folders, and carries out what was decided before an earlier stop.
   *
   * @throws InputException where a folder or the ledger can't be used, or another server uses the
   *     claims
   */
  public void prepare() throws InputException, IOException {
    Files.createDirectories(claims);
    lock();
    for (FolderSettings folder : settings.folders()) {
      folder.places().make();
    }
    filing.check();
    try (DirectoryStream<Path> left = Files.newDirectoryStream(claims)) {
      for (Path area : left) {
        resume(area);
      }
    }
  }

  /** Another server would take this one's work for what an earlier one left. */
  private void lock() throws InputException, IOException {
    lockFile =
        FileChannel.open(
            claims.resolveSibling("lock"), StandardOpenOption.CREATE, StandardOpenOption.WRITE);
    boolean isMine;
    try {
      isMine = lockFile.tryLock() != null;
    } catch (OverlappingFileLockException e) {
      isMine = false;
    }
    if (!isMine) {
      lockFile.close();
      throw InputException.of(
          claims.toString(),
          "is used by another server already; stop that one, or give this one a desk of its own");
    }
  }

  private void resume(Path area) throws IOException {
    Optional<Claim> claim = readable(area);
    if (claim.isPresent() && Files.exists(claim.get().plan())) {
      log.tell("resumed", claim.get().folder().name(), claim.get().relative(), "at the desk");
      finish(Settlement.read(claim.get()), System.nanoTime());
      return;
    }
    // Nothing was decided, and whoever asked has the file still.
    if (claim.isPresent()) {
      claim.get().deleteStages();
    }
    Durable.deleteTree(area);
  }

  /** A claim says by its note which folder it belongs to. */
  private Optional<Claim> readable(Path area) {
    try {
      String name = Files.readString(area.resolve("folder"));
      for (FolderSettings folder : settings.folders()) {
        if (folder.name().equals(name)) {
          Kind kind = Files.exists(area.resolve("measurement")) ? Kind.MEASUREMENT : Kind.JOB;
          return Optional.of(Claim.read(folder, kind, area));
        }
      }
    } catch (IOException e) {
      // It was not made ready to its end.
    }
    return Optional.empty();
  }

  /**
   * The file that a job was, from the done folder; empty where none is there with the same bytes.
   */
  public Optional<Path> original(FolderSettings folder, JobRecord job) throws IOException {
    Path done = folder.places().done().resolve(job.file()).normalize();
    Path among = done.getParent();
    if (among == null || !among.startsWith(folder.places().done()) || !Files.isDirectory(among)) {
      return Optional.empty();
    }
    String stem = Names.shortened(Names.stem(String.valueOf(done.getFileName())));
    try (DirectoryStream<Path> files =
        Files.newDirectoryStream(
            among, file -> String.valueOf(file.getFileName()).startsWith(stem))) {
      for (Path file : files) {
        if (Files.isRegularFile(file)
            && Files.size(file) == job.bytes()
            && FileDigest.sha256(file).equals(job.sha256())) {
          return Optional.of(file);
        }
      }
    }
    return Optional.empty();
  }

  /** Removes a folder of the desk with all that is in it. */
  public static void removeTree(Path folder) throws IOException {
    Durable.deleteTree(folder);
  }

  /** The id of work that is to be asked for. */
  public static String newId() {
    return UUID.randomUUID().toString().replace("-", "");
  }

  /**
   * Stamps a job into the outgoing folder and files it.
   *
   * @param id from {@link #newId}; the job's in the ledger
   * @param name the job's own file name
   * @param job the file; it stays where it is
   * @param chosen patches by the page that bears the strip; what is not named is chosen as usual
   * @param beside files that come beside the proof, by their endings, for example {@code
   *     .review.json}
   * @throws InputException where the job can't be stamped; nothing is written then
   * @throws IOException where a folder or the ledger is away; once a plan was written it is carried
   *     out by the next {@link #prepare}
   */
  public Done stamp(
      FolderSettings folder,
      String id,
      String name,
      Path job,
      Map<Integer, ChosenSet> chosen,
      Map<String, String> beside)
      throws InputException, IOException {
    Claim claim = claim(folder, Kind.JOB, id, name, job);
    return worked(
        claim,
        work -> {
          ObjectNode reply = new ObjectMapper().createObjectNode();
          ObjectNode request = work.request(0);
          StampTask.run(request, reply, chosen);
          Path proof = Path.of(request.path("proof").asText());
          String stem = String.valueOf(proof.getFileName());
          stem = stem.substring(0, stem.length() - Job.PROOF.length());
          for (Map.Entry<String, String> file : beside.entrySet()) {
            Path written = proof.resolveSibling(stem + file.getKey());
            Files.writeString(written, file.getValue());
            ((ArrayNode) reply.path("written")).add(written.toString());
          }
          return reply;
        });
  }

  /**
   * Scores a measurement and files it.
   *
   * @param name the measurement's own file name
   * @param measurement the file; it stays where it is
   * @param jobId the job that it is a measurement of; empty to find that by its strip
   * @throws InputException where it can't be scored; nothing is written then
   * @throws IOException as for {@link #stamp}
   */
  public Done score(FolderSettings folder, String name, Path measurement, Optional<String> jobId)
      throws InputException, IOException {
    Claim claim = claim(folder, Kind.MEASUREMENT, newId(), name, measurement);
    return worked(
        claim,
        work -> {
          Optional<String> refusal = work.refusalAtSight(jobId);
          if (refusal.isPresent()) {
            throw InputException.of(claim.name(), refusal.get());
          }
          ObjectNode reply = new ObjectMapper().createObjectNode();
          ScoreTask.run(work.request(0), reply);
          return reply;
        });
  }

  private Claim claim(FolderSettings folder, Kind kind, String id, String name, Path file)
      throws IOException {
    Path area = claims.resolve(id);
    Claim claim =
        new Claim(
            folder,
            kind,
            id,
            area,
            name,
            Files.size(file),
            Files.getLastModifiedTime(file),
            shop.now());
    claim.writeNote();
    Files.writeString(area.resolve("folder"), folder.name());
    if (kind == Kind.MEASUREMENT) {
      Files.createFile(area.resolve("measurement"));
    }
    Files.copy(file, claim.file(), java.nio.file.StandardCopyOption.COPY_ATTRIBUTES);
    return claim;
  }

  /** What is done with a claimed file; returns what a worker would reply. */
  private interface Work {
    ObjectNode on(Job job) throws InputException, IOException;
  }

  private Done worked(Claim claim, Work work) throws InputException, IOException {
    long start = System.nanoTime();
    boolean isDecided = false;
    try (Job job = Job.begin(shop, claim)) {
      Settlement settlement = job.accept(work.on(job));
      isDecided = true;
      finish(settlement, start);
      return new Done(claim.id(), settlement.outcome(), settlement.text());
    } catch (InputException e) {
      if (e.getCause() instanceof FileSystemException cause) {
        throw new IOException(e.getMessage(), cause);
      }
      throw InputException.of(claim.name(), plain(claim, e.getMessage()), e);
    } finally {
      if (!isDecided) {
        claim.deleteStages();
        Durable.deleteTree(claim.area());
      }
    }
  }

  /** Without the path where the file lay meanwhile. */
  private static String plain(Claim claim, String message) {
    String text = message.replace(claim.file().toString(), claim.name());
    String prefix = claim.name() + ": ";
    return text.startsWith(prefix) ? text.substring(prefix.length()) : text;
  }

  private void finish(Settlement settlement, long start) throws IOException {
    Claim claim = settlement.claim();
    settlement.moveAll();
    shop.file(claim);
    settlement.close();
    shop.settled(settlement, Duration.ofNanos(System.nanoTime() - start));
  }

  /** The folders, in their order. */
  public List<FolderSettings> folders() {
    return new ArrayList<>(settings.folders());
  }

  @Override
  public void close() {
    if (lockFile != null) {
      try {
        lockFile.close();
      } catch (IOException e) {
        log.tell("trouble", "", "", "a lock can't be released: " + e.getMessage());
      }
    }
    filing.close();
    metrics.close();
  }
}
