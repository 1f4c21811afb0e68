package selvage.score;

import java.util.ArrayList;
import java.util.HashMap;
import java.util.List;
import java.util.Map;
import selvage.color.Lab;
import selvage.ink.Colorant;
import selvage.ink.InkMixture;
import selvage.ink.Tint;

/**
 * The tone values of a strip's spot tints, from the paper and the solids that were read with them,
 * and those of their aims. A tint whose paper or solid was not read has none.
 */
final class SpotTones {
  private ScoredPatch paper;
  private final Map<Colorant, ScoredPatch> solids = new HashMap<>();

  SpotTones(List<ScoredPatch> patches) {
    for (ScoredPatch patch : patches) {
      InkMixture mixture = patch.patch().mixture();
      if (mixture.isPaper() && paper == null) {
        paper = patch;
      } else if (mixture.units().size() == 1 && mixture.hasSpot()) {
        Colorant ink = mixture.units().firstKey();
        if (mixture.units(ink) == Tint.FULL) {
          solids.putIfAbsent(ink, patch);
        }
      }
    }
  }

  /** The same patches, spot tints with their tone values. */
  List<ScoredPatch> addedTo(List<ScoredPatch> patches) {
    if (paper == null || solids.isEmpty()) {
      return patches;
    }
    List<ScoredPatch> added = new ArrayList<>(patches.size());
    for (ScoredPatch patch : patches) {
      added.add(PatchChoice.SPOT_TINTS.takes(patch.patch()) ? withTone(patch) : patch);
    }
    return added;
  }

  private ScoredPatch withTone(ScoredPatch patch) {
    ScoredPatch solid = solids.get(patch.patch().mixture().units().firstKey());
    if (solid == null) {
      return patch;
    }
    SpotTone read = new SpotTone(paper.lab(), solid.lab());
    SpotTone aimed = new SpotTone(aim(paper), aim(solid));
    return read.isDefined() && aimed.isDefined()
        ? patch.with(new ScoredPatch.Tone(read, aimed.of(aim(patch))))
        : patch;
  }

  private static Lab aim(ScoredPatch patch) {
    return patch.patch().aim().lab();
  }
}
