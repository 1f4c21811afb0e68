package selvage.report;

import java.util.Locale;
import selvage.ink.Colorant;
import selvage.ink.InkMixture;

/** The build of a mixture in words, for people. */
public final class InkText {
  private InkText() {}

  /**
   * Process inks by their letter, spot inks by name, tints in percent: {@code C40 M30 Y30}, {@code
   * Dune Red 60}, {@code paper}.
   */
  public static String of(InkMixture mixture) {
    if (mixture.isPaper()) {
      return "paper";
    }
    StringBuilder text = new StringBuilder();
    for (Colorant colorant : mixture.units().keySet()) {
      int process = Colorant.PROCESS.indexOf(colorant);
      text.append(text.length() == 0 ? "" : " ")
          .append(process >= 0 ? "CMYK".substring(process, process + 1) : colorant.name() + " ")
          .append(shortPercent(mixture.percent(colorant)));
    }
    return text.toString();
  }

  private static String shortPercent(double percent) {
    String text = String.format(Locale.ROOT, "%.1f", percent);
    return text.endsWith(".0") ? text.substring(0, text.length() - 2) : text;
  }
}
