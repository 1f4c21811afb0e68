package selvage.score;

import java.util.Locale;
import selvage.ink.Colorant;
import selvage.ink.InkMixture;
import selvage.ink.Tint;
import selvage.strip.Patch;

/** Which patches of a set a limit is about. */
public enum PatchChoice {
  ALL,
  /** Unprinted paper. */
  SUBSTRATE,
  /** Solids of cyan, magenta, yellow, black. */
  PRIMARIES,
  /** Solids of cyan, magenta, yellow: the ones whose hue means something. */
  CHROMATIC_PRIMARIES,
  /** Overprints of cyan, magenta, yellow that look neutral, by their role. */
  NEAR_NEUTRALS,
  /** Solids of one spot colour. */
  SPOT_SOLIDS,
  /** Tints of one spot colour, its solid not among them. */
  SPOT_TINTS;

  private static final String NEAR_NEUTRAL_ROLE = "near-neutral";

  /** Returns the word that stands in files, for example {@code near-neutrals}. */
  public String word() {
    return name().toLowerCase(Locale.ROOT).replace('_', '-');
  }

  boolean takes(Patch patch) {
    InkMixture mixture = patch.mixture();
    return switch (this) {
      case ALL -> true;
      case SUBSTRATE -> mixture.isPaper();
      case PRIMARIES -> isSolid(mixture) && mixture.hasProcess();
      case CHROMATIC_PRIMARIES ->
          isSolid(mixture) && mixture.hasProcess() && mixture.units(Colorant.BLACK) == 0;
      case NEAR_NEUTRALS -> patch.role().equals(NEAR_NEUTRAL_ROLE);
      case SPOT_SOLIDS -> isSolid(mixture) && mixture.hasSpot();
      case SPOT_TINTS -> mixture.units().size() == 1 && mixture.hasSpot() && !isSolid(mixture);
    };
  }

  private static boolean isSolid(InkMixture mixture) {
    return mixture.units().size() == 1 && mixture.units().values().iterator().next() == Tint.FULL;
  }
}
