package selvage.workflow;

import java.nio.file.Path;
import java.time.Instant;
import java.util.List;
import java.util.Map;
import java.util.Objects;
import java.util.Optional;
import selvage.sheet.Edge;
import selvage.strip.ChosenSet;
import selvage.strip.JobSet;
import selvage.strip.StripLabel;

/**
 * How a job is to be stamped.
 *
 * @param patches job patches a strip, 1 to {@link JobSet#MOST_PATCHES}, or {@link JobSet#AUTO}
 * @param standard a standard strip's name, {@code none}, or a CGATS file
 * @param reader a reader description's name or file
 * @param edge of the page as displayed; empty for the one that costs least
 * @param perJob one strip for all pages, on the first, instead of one a page
 * @param separate where to write the strips alone as well
 * @param labelItems names and values written beside the strip
 * @param time stamped on the label and in the file
 * @param chosen the job patches that an operator approved, by the page that bears the strip; where
 *     a page has none, they are chosen
 */
public record StampOptions(
    int patches,
    String standard,
    String reader,
    Optional<Edge> edge,
    boolean perJob,
    Optional<Path> separate,
    List<StripLabel.Item> labelItems,
    Instant time,
    Map<Integer, ChosenSet> chosen) {
  /** Job patches a strip where nothing is said. */
  public static final int DEFAULT_PATCHES = 24;

  public StampOptions {
    if (patches < JobSet.AUTO || patches > JobSet.MOST_PATCHES) {
      throw new IllegalArgumentException("patches: 1 to " + JobSet.MOST_PATCHES);
    }
    Objects.requireNonNull(standard, "standard");
    Objects.requireNonNull(reader, "reader");
    Objects.requireNonNull(edge, "edge");
    Objects.requireNonNull(separate, "separate");
    Objects.requireNonNull(time, "time");
    labelItems = List.copyOf(labelItems);
    chosen = Map.copyOf(chosen);
  }

  /** All patches are chosen. */
  public StampOptions(
      int patches,
      String standard,
      String reader,
      Optional<Edge> edge,
      boolean perJob,
      Optional<Path> separate,
      List<StripLabel.Item> labelItems,
      Instant time) {
    this(patches, standard, reader, edge, perJob, separate, labelItems, time, Map.of());
  }

  /** The same with the patches that an operator approved, by the page that bears the strip. */
  public StampOptions withChosen(Map<Integer, ChosenSet> approved) {
    return new StampOptions(
        patches, standard, reader, edge, perJob, separate, labelItems, time, approved);
  }
}
