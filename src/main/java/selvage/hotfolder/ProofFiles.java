package selvage.hotfolder;

import java.io.IOException;
import java.nio.file.Files;
import java.nio.file.InvalidPathException;
import java.nio.file.Path;
import java.util.Locale;
import java.util.Objects;
import java.util.Optional;
import selvage.ledger.JobRecord;

/**
 * The files of a proof in a hot folder's outgoing folder, as the ledger names them. A name that
 * leads out of that folder, by itself or through a link, leads to nothing.
 *
 * @param outgoing the folder
 */
public record ProofFiles(Path outgoing) {
  private static final int SCORE_LETTERS = 8;
  private static final String PDF = ".pdf";

  public ProofFiles {
    Objects.requireNonNull(outgoing, "outgoing");
  }

  /** The stamped proof. */
  public Optional<Path> proof(JobRecord job) {
    return job.proof().flatMap(this::file);
  }

  /** The strips file. */
  public Optional<Path> strips(JobRecord job) {
    return job.strips().flatMap(this::file);
  }

  /**
   * The device and aim values of the strip on a page.
   *
   * @param page counted from 1
   */
  public Optional<Path> stripText(JobRecord job, int page) {
    String ending = String.format(Locale.ROOT, ".strip-p%03d.txt", page);
    return stem(job).flatMap(stem -> file(stem + ending));
  }

  /** The score of a measurement, as it lies beside the proof. */
  public Optional<Path> score(JobRecord job, String scoreId, String ending) {
    return stem(job)
        .flatMap(
            stem -> {
              int slash = stem.lastIndexOf('/') + 1;
              String name = Names.shortened(stem.substring(slash));
              return file(
                  stem.substring(0, slash)
                      + name
                      + ".score-"
                      + scoreId.substring(0, SCORE_LETTERS)
                      + ending);
            });
  }

  private static Optional<String> stem(JobRecord job) {
    return job.proof()
        .filter(proof -> proof.endsWith(PDF))
        .map(proof -> proof.substring(0, proof.length() - PDF.length()));
  }

  /** A file by its path below the folder; empty where it is not there, or not below it. */
  private Optional<Path> file(String relative) {
    try {
      Path root = outgoing.toRealPath();
      Path file = root.resolve(relative).toRealPath();
      return file.startsWith(root) && Files.isRegularFile(file)
          ? Optional.of(file)
          : Optional.empty();
    } catch (IOException | InvalidPathException e) {
      return Optional.empty();
    }
  }
}
