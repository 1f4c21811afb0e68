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
  DL("ΔL: ΔL*, without its sign");

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

  /** The size of the difference, at least 0. */
  double of(Lab aim, Lab sample) {
    return switch (this) {
      case DE00 -> ColorDifference.de00(aim, sample);
      case DE76 -> ColorDifference.de76(aim, sample);
      case DCH -> ColorDifference.dCh(aim, sample);
      case DH -> Math.abs(ColorDifference.dH(aim, sample));
      case DL -> Math.abs(ColorDifference.dL(aim, sample));
    };
  }
}
