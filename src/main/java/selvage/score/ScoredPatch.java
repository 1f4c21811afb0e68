package selvage.score;

import java.util.Objects;
import java.util.Optional;
import java.util.OptionalDouble;
import selvage.color.Lab;
import selvage.strip.Patch;

/**
 * A patch and how far its reading lies from its aim. Differences are reading minus aim.
 *
 * @param patch the patch
 * @param lab the reading
 * @param de00 CIEDE2000
 * @param de76 ΔE*ab
 * @param dch ΔCh
 * @param dh ΔH*ab, signed
 * @param dl ΔL*, signed
 * @param judged whether it counts for pass or fail
 * @param tone of a spot ink's tint, where paper and solid were read with it
 */
public record ScoredPatch(
    Patch patch,
    Lab lab,
    double de00,
    double de76,
    double dch,
    double dh,
    double dl,
    boolean judged,
    Optional<Tone> tone) {
  /**
   * How the tone value of a spot tint is told.
   *
   * @param scale from the paper and the solid read
   * @param aimPercent the tone value of the tint's aim between those of paper and solid
   */
  public record Tone(SpotTone scale, double aimPercent) {}

  public ScoredPatch {
    Objects.requireNonNull(patch, "patch");
    Objects.requireNonNull(lab, "lab");
    Objects.requireNonNull(tone, "tone");
  }

  ScoredPatch with(Tone found) {
    return new ScoredPatch(patch, lab, de00, de76, dch, dh, dl, judged, Optional.of(found));
  }

  /**
   * Whether it counts for a limit on this metric. The tone value of a spot tint has its aim by
   * definition, whatever became of the aim's colour.
   */
  boolean judgedBy(Metric metric) {
    return metric.appliesTo(this) && (judged || metric == Metric.SCTV);
  }

  /** Tone value (SCTV, ISO 20654) read, in percent; of spot tints only. */
  public OptionalDouble sctvPercent() {
    return tone.isPresent()
        ? OptionalDouble.of(tone.get().scale().of(lab))
        : OptionalDouble.empty();
  }

  /** Tone value (SCTV, ISO 20654) of the aim, in percent; of spot tints only. */
  public OptionalDouble sctvAimPercent() {
    return tone.isPresent() ? OptionalDouble.of(tone.get().aimPercent()) : OptionalDouble.empty();
  }
}
