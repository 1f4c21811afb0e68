package selvage.hotfolder;

import java.io.IOException;
import java.nio.file.Files;
import java.nio.file.Path;
import java.time.Duration;
import java.util.ArrayList;
import java.util.List;
import java.util.Objects;
import java.util.Optional;
import selvage.finding.InputException;
import selvage.strip.StripLabel;

/**
 * One hot folder.
 *
 * @param name for logs and the ledger
 * @param places where its files come from and go to
 * @param stamping how its jobs are stamped
 * @param tolerance the name or file of the tolerance set that its measurements are held against
 * @param timeLimit for one file; what takes longer is refused
 * @param keepDone how long taken files are kept in the done folder; empty for ever
 */
public record FolderSettings(
    String name,
    Places places,
    Stamping stamping,
    String tolerance,
    Duration timeLimit,
    Optional<Duration> keepDone) {
  /** What one file may take where nothing is said. */
  public static final Duration USUAL_TIME_LIMIT = Duration.ofMinutes(10);

  /**
   * Folders; none lies in another, but measured and done may be shared by several hot folders.
   *
   * @param incoming jobs are dropped here
   * @param outgoing stamped proofs and scores
   * @param refused jobs and measurements that can't be used, each with the reason
   * @param measured measurements are dropped here; empty where none are taken
   * @param done jobs and measurements that have been worked on
   */
  public record Places(
      Path incoming, Path outgoing, Path refused, Optional<Path> measured, Path done) {
    public Places {
      Objects.requireNonNull(incoming, "incoming");
      Objects.requireNonNull(outgoing, "outgoing");
      Objects.requireNonNull(refused, "refused");
      Objects.requireNonNull(measured, "measured");
      Objects.requireNonNull(done, "done");
    }

    /**
     * Makes the folders that are missing.
     *
     * @throws InputException where one can't be made
     */
    void make() throws InputException {
      List<Path> all = new ArrayList<>(List.of(incoming, outgoing, refused, done));
      measured.ifPresent(all::add);
      for (Path path : all) {
        try {
          Files.createDirectories(path);
        } catch (IOException e) {
          throw InputException.of(
              path.toString(), "can't be made: " + e.getMessage() + "; check the settings", e);
        }
      }
    }
  }

  /**
   * How jobs are stamped; the words are those of the {@code stamp} command.
   *
   * @param condition a built-in name or a file; empty for the job's output intent, else the default
   * @param standard a standard strip's name or file
   * @param patches job patches a strip, 1 to 200; 0 for as many as pay
   * @param reader a reader's name or file
   * @param edge {@code auto}, {@code top}, {@code right}, {@code bottom} or {@code left}
   * @param perJob one strip for the whole job instead of one a page
   * @param dpi samples an inch
   * @param spots spot colour libraries
   * @param label what the strip's label says of the proof
   */
  public record Stamping(
      Optional<String> condition,
      String standard,
      int patches,
      String reader,
      String edge,
      boolean perJob,
      double dpi,
      List<Path> spots,
      List<StripLabel.Item> label) {
    public Stamping {
      Objects.requireNonNull(condition, "condition");
      Objects.requireNonNull(standard, "standard");
      Objects.requireNonNull(reader, "reader");
      Objects.requireNonNull(edge, "edge");
      spots = List.copyOf(spots);
      label = List.copyOf(label);
    }
  }

  public FolderSettings {
    Objects.requireNonNull(name, "name");
    Objects.requireNonNull(places, "places");
    Objects.requireNonNull(stamping, "stamping");
    Objects.requireNonNull(tolerance, "tolerance");
    Objects.requireNonNull(timeLimit, "timeLimit");
    Objects.requireNonNull(keepDone, "keepDone");
  }

  /** The folder that files of a kind are dropped into. */
  Path drop(Kind kind) {
    return kind == Kind.JOB ? places.incoming() : places.measured().orElseThrow();
  }
}
