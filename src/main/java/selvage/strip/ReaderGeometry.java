package selvage.strip;

import com.fasterxml.jackson.core.JsonProcessingException;
import com.fasterxml.jackson.databind.JsonNode;
import com.fasterxml.jackson.databind.ObjectMapper;
import java.io.IOException;
import java.io.InputStream;
import java.nio.file.Files;
import java.nio.file.Path;
import java.util.List;
import selvage.finding.InputException;

/**
 * What an instrument asks of the strip, in millimetres. Files of this kind lie in {@code
 * strips/readers}; {@code docs/file-formats.md} explains them.
 *
 * @param name of the description
 * @param source where the figures come from
 * @param reading at rest on each patch, or along a row
 * @param apertureMm diameter of the measured spot
 * @param patchWidthMm along the row
 * @param patchHeightMm across the row
 * @param dividerMm between two patches of a row; 0 where they touch
 * @param leaderMm before a row's first patch; holds the start mark
 * @param trailerMm blank after a row's last patch
 * @param rowGapMm between two rows; holds the patch labels, so at least {@value #LEAST_ROW_GAP_MM}
 * @param longestRowMm from the leader's start to the trailer's end
 */
public record ReaderGeometry(
    String name,
    String source,
    Reading reading,
    double apertureMm,
    double patchWidthMm,
    double patchHeightMm,
    double dividerMm,
    double leaderMm,
    double trailerMm,
    double rowGapMm,
    double longestRowMm) {

  /** How the instrument reads. */
  public enum Reading {
    /** At rest on each patch. */
    SPOT,
    /** While it moves along a row; neighbours must differ clearly. */
    SCAN
  }

  /** The built-in descriptions; the first is the default. */
  public static final List<String> BUILT_IN =
      List.of("handheld-spot", "handheld-scan", "strip-feeder", "xy-table");

  static final double LEAST_ROW_GAP_MM = 3;
  static final double LEAST_LEADER_MM = 9;

  public ReaderGeometry {
    if (name.isBlank() || source.isBlank()) {
      throw new IllegalArgumentException("a reader description needs a name and a source");
    }
    within(name, "aperture_mm", apertureMm, 0.5, 50);
    within(name, "patch_width_mm", patchWidthMm, 1.5 * apertureMm, 100);
    within(name, "patch_height_mm", patchHeightMm, 1.5 * apertureMm, 100);
    within(name, "divider_mm", dividerMm, 0, 20);
    within(name, "leader_mm", leaderMm, LEAST_LEADER_MM, 100);
    within(name, "trailer_mm", trailerMm, 1, 100);
    within(name, "row_gap_mm", rowGapMm, LEAST_ROW_GAP_MM, 100);
    within(
        name,
        "longest_row_mm",
        longestRowMm,
        leaderMm + trailerMm + 4 * (patchWidthMm + dividerMm),
        2000);
  }

  private static void within(String name, String what, double value, double least, double most) {
    if (!(value >= least && value <= most)) {
      throw new IllegalArgumentException(
          name + ": " + what + ": expected " + least + " to " + most + ", found " + value);
    }
  }

  /** From one patch's left edge to the next one's. */
  double pitchMm() {
    return patchWidthMm + dividerMm;
  }

  /**
   * Reads a built-in description or a user's file.
   *
   * @param nameOrFile one of {@link #BUILT_IN}, or a path
   * @throws InputException where there is none, or it can't be used
   */
  public static ReaderGeometry load(String nameOrFile) throws InputException {
    byte[] json;
    if (BUILT_IN.contains(nameOrFile)) {
      json = builtIn("/strips/readers/" + nameOrFile + ".json");
    } else {
      try {
        json = Files.readAllBytes(Path.of(nameOrFile));
      } catch (IOException | java.nio.file.InvalidPathException e) {
        throw InputException.of(
            nameOrFile,
            "expected a reader's name (" + String.join(", ", BUILT_IN) + ") or a file, found none",
            e);
      }
    }
    return parse(nameOrFile, json);
  }

  static byte[] builtIn(String resource) {
    try (InputStream in = ReaderGeometry.class.getResourceAsStream(resource)) {
      if (in == null) {
        throw new IllegalStateException("missing from the program: " + resource);
      }
      return in.readAllBytes();
    } catch (IOException e) {
      throw new java.io.UncheckedIOException(e);
    }
  }

  static ReaderGeometry parse(String file, byte[] json) throws InputException {
    JsonNode root;
    try {
      root = new ObjectMapper().readTree(json);
    } catch (JsonProcessingException e) {
      throw InputException.of(file, "expected JSON, found: " + e.getOriginalMessage(), e);
    } catch (IOException e) {
      throw InputException.of(file, "can't be read: " + e.getMessage(), e);
    }
    JsonFields fields = JsonFields.of(file, "reader", root);
    try {
      return new ReaderGeometry(
          fields.text("name"),
          fields.text("source"),
          fields.word("reading", Reading.values()),
          fields.number("aperture_mm"),
          fields.number("patch_width_mm"),
          fields.number("patch_height_mm"),
          fields.number("divider_mm"),
          fields.number("leader_mm"),
          fields.number("trailer_mm"),
          fields.number("row_gap_mm"),
          fields.number("longest_row_mm"));
    } catch (IllegalArgumentException e) {
      throw InputException.of(file, e.getMessage(), e);
    }
  }
}
