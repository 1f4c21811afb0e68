package selvage.hotfolder;

import java.io.IOException;
import java.nio.channels.FileChannel;
import java.nio.channels.FileLock;
import java.nio.channels.OverlappingFileLockException;
import java.nio.file.DirectoryStream;
import java.nio.file.FileAlreadyExistsException;
import java.nio.file.Files;
import java.nio.file.NoSuchFileException;
import java.nio.file.Path;
import java.nio.file.StandardCopyOption;
import java.nio.file.StandardOpenOption;
import java.time.Clock;
import java.time.temporal.ChronoUnit;
import java.util.ArrayList;
import java.util.HashSet;
import java.util.List;
import java.util.Optional;
import java.util.Set;
import java.util.UUID;
import selvage.finding.InputException;

/**
 * The hidden folder beside dropped files where those taken lie. It is on their file system, so that
 * taking is a rename, and it is locked, so that no two programs watch one folder.
 */
final class ClaimArea implements AutoCloseable {
  /** The hidden folder's name, in every folder that the program uses. */
  static final String HIDDEN = ".selvage";

  private final FolderSettings folder;
  private final Kind kind;
  private final Clock clock;
  private FileChannel lockFile;
  private FileLock lock;
  private Object lockedFile;
  private final Set<String> active = new HashSet<>();

  ClaimArea(FolderSettings folder, Kind kind, Clock clock) {
    this.folder = folder;
    this.kind = kind;
    this.clock = clock;
  }

  private Path hidden() {
    return folder.drop(kind).resolve(HIDDEN);
  }

  private Path claims() {
    return hidden().resolve("claims");
  }

  /**
   * Makes the area ready, again where the folder was away meanwhile.
   *
   * @throws InputException where another program watches the folder
   * @throws IOException where the folder is not there or can't be written
   */
  void prepare() throws InputException, IOException {
    if (!Files.isDirectory(folder.drop(kind))) {
      throw new NoSuchFileException(folder.drop(kind).toString());
    }
    Files.createDirectories(claims());
    Path file = hidden().resolve("lock");
    if (lock != null && Files.exists(file) && key(file).equals(lockedFile)) {
      return;
    }
    close();
    lockFile = FileChannel.open(file, StandardOpenOption.CREATE, StandardOpenOption.WRITE);
    try {
      lock = lockFile.tryLock();
    } catch (OverlappingFileLockException e) {
      lock = null;
    }
    if (lock == null) {
      lockFile.close();
      throw InputException.of(
          folder.drop(kind).toString(),
          "is watched by another program already; stop that one, or name another folder");
    }
    lockedFile = key(file);
  }

  private static Object key(Path file) throws IOException {
    Object key =
        Files.readAttributes(file, java.nio.file.attribute.BasicFileAttributes.class).fileKey();
    return key == null ? file : key;
  }

  /**
   * Takes a file, if it is still there and as it was seen.
   *
   * @throws IOException where the folder can't be written
   */
  Optional<Claim> take(Arrival arrival) throws IOException {
    if (OpenFiles.isWritten(arrival.file())) {
      return Optional.empty();
    }
    String id = UUID.randomUUID().toString().replace("-", "");
    activate(id);
    boolean isTaken = false;
    try {
      Optional<Claim> claim = take(arrival, id);
      isTaken = claim.isPresent();
      return claim;
    } finally {
      if (!isTaken) {
        release(id);
      }
    }
  }

  private synchronized void activate(String id) {
    active.add(id);
  }

  /** Tells that nobody works on a claim any more. */
  synchronized void release(String id) {
    active.remove(id);
  }

  private Optional<Claim> take(Arrival arrival, String id) throws IOException {
    Claim claim =
        new Claim(
            folder,
            kind,
            id,
            claims().resolve(id),
            arrival.relative(),
            arrival.bytes(),
            arrival.modified(),
            clock.instant().truncatedTo(ChronoUnit.MILLIS));
    claim.writeNote();
    try {
      Files.move(arrival.file(), claim.file(), StandardCopyOption.ATOMIC_MOVE);
    } catch (NoSuchFileException e) {
      Durable.deleteTree(claim.area());
      return Optional.empty();
    }
    Durable.forceFolder(claim.file().getParent());
    if (!claim.isUnchanged()) {
      giveBack(claim);
      return Optional.empty();
    }
    return Optional.of(claim);
  }

  /**
   * Puts a file back where it was dropped, if that place is free; else it stays claimed, and the
   * next start takes it up.
   */
  boolean giveBack(Claim claim) throws IOException {
    try {
      return isGivenBack(claim);
    } finally {
      release(claim.id());
    }
  }

  private boolean isGivenBack(Claim claim) throws IOException {
    Path home = folder.drop(kind).resolve(claim.relative());
    Files.createDirectories(home.toAbsolutePath().getParent());
    try {
      Durable.move(claim.file(), home, hidden().resolve("back-" + claim.id()));
    } catch (FileAlreadyExistsException e) {
      return false;
    }
    Durable.deleteTree(claim.area());
    return true;
  }

  /**
   * The claims that nobody works on, for example those of an earlier run; from now on the caller
   * does. Claims without a file are removed: their file was never taken, or is settled.
   */
  List<Claim> left() throws IOException {
    List<Path> areas = new ArrayList<>();
    try (DirectoryStream<Path> all = Files.newDirectoryStream(claims())) {
      all.forEach(areas::add);
    }
    List<Claim> left = new ArrayList<>();
    for (Path area : areas) {
      String id = String.valueOf(area.getFileName());
      if (isActivated(id)) {
        Optional<Claim> claim = Optional.empty();
        try {
          claim = readLeft(area);
          claim.ifPresent(left::add);
        } finally {
          if (claim.isEmpty()) {
            release(id);
          }
        }
      }
    }
    left.sort(java.util.Comparator.comparing(Claim::received).thenComparing(Claim::id));
    return left;
  }

  /** Whether a claim was nobody's until now. */
  private synchronized boolean isActivated(String id) {
    return active.add(id);
  }

  /** Gives back all that nobody works on any more and nothing was decided about. */
  List<Claim> giveBackAll() throws IOException {
    synchronized (this) {
      active.clear();
    }
    List<Claim> returned = new ArrayList<>();
    for (Claim claim : left()) {
      if (!Files.exists(claim.plan())) {
        claim.deleteStages();
        if (giveBack(claim)) {
          returned.add(claim);
        }
      }
    }
    return returned;
  }

  private Optional<Claim> readLeft(Path area) throws IOException {
    Claim claim;
    try {
      claim = Claim.read(folder, kind, area);
    } catch (IOException e) {
      rescue(area);
      return Optional.empty();
    }
    if (Files.exists(claim.file()) || Files.exists(claim.plan())) {
      return Optional.of(claim);
    }
    Durable.deleteTree(area);
    return Optional.empty();
  }

  /**
   * Removes a claim without a note, which is one whose file was not taken yet. Should there be a
   * file all the same, it goes back.
   */
  private void rescue(Path area) throws IOException {
    Path taken = area.resolve("file");
    if (Files.isDirectory(taken)) {
      try (DirectoryStream<Path> files = Files.newDirectoryStream(taken)) {
        for (Path file : files) {
          Path home = folder.drop(kind).resolve(String.valueOf(file.getFileName()));
          Durable.move(file, home, hidden().resolve("back-" + area.getFileName()));
        }
      }
    }
    Durable.deleteTree(area);
  }

  @Override
  public void close() throws IOException {
    if (lock != null) {
      lock.close();
      lockFile.close();
      lock = null;
    }
  }
}
