package selvage.score;

import java.util.Locale;
import selvage.color.ColorDifference;
import selvage.color.Lab;

/** What a limit limits: a colour difference, taken without its sign. */
public enum Metric {
  DE00("ΔE00: CIEDE2000 with kL = kC = kH = 1 (ISO/CIE 11664-6)"),
  DE76("ΔE76: ΔE*ab, CIELAB 1976 (ISO/CIE 11664-4)"),
  DCH("ΔCh: √(Δa*² + Δb*²)"),
  DH("ΔH: ΔH*ab (ISO/CIE 11664-4), without its sign"),
  DL("ΔL: ΔL*, without its sign"),
  SCTV(
      "ΔSCTV: tone value of a spot tint (SCTV, ISO 20654) less that of its aim, in percent, without"
          + " its sign");

  private final String note;

  Metric(String note) {
    this.note = note;
  }

  /** Returns the word that stands in files: {@code de00}, {@code de76}, {@code dch} and so on. */
  public String word() {
    return name().toLowerCase(Locale.ROOT);
  }

  /** For people: the metric's sign, for example {@code ΔE00}. */
  public String sign() {
    return note.substring(0, note.indexOf(':'));
  }

  /** For people: the metric's definition. */
  public String note() {
    return note;
  }

  /** Whether it means something for a patch. */
  boolean appliesTo(ScoredPatch patch) {
    return this != SCTV || patch.tone().isPresent();
  }

  /** The size of a patch's difference, at least 0. */
  double of(ScoredPatch patch) {
    return of(patch, patch.lab());
  }

  /** The size of the difference that a patch would have with this reading, at least 0. */
  double of(ScoredPatch patch, Lab sample) {
    Lab aim = patch.patch().aim().lab();
    return switch (this) {
      case DE00 -> ColorDifference.de00(aim, sample);
      case DE76 -> ColorDifference.de76(aim, sample);
      case DCH -> ColorDifference.dCh(aim, sample);
      case DH -> Math.abs(ColorDifference.dH(aim, sample));
      case DL -> Math.abs(ColorDifference.dL(aim, sample));
      case SCTV -> {
        ScoredPatch.Tone tone = patch.tone().orElseThrow();
        yield Math.abs(tone.scale().of(sample) - tone.aimPercent());
      }
    };
  }
}
