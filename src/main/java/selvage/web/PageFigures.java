package selvage.web;

import java.text.NumberFormat;
import java.time.Instant;
import java.time.ZoneId;
import java.time.format.DateTimeFormatter;
import java.time.format.FormatStyle;
import java.util.Locale;
import java.util.Objects;
import java.util.OptionalDouble;

/**
 * Numbers and times as a reader's language writes them. A missing number is a dash, never a zero.
 *
 * @param locale of the reader
 * @param zone of the times
 */
public record PageFigures(Locale locale, ZoneId zone) {
  private static final char MINUS = '\u2212';

  public PageFigures {
    Objects.requireNonNull(locale, "locale");
    Objects.requireNonNull(zone, "zone");
  }

  /** A number with so many decimals and a true minus sign. */
  public String number(double value, int decimals) {
    NumberFormat format = NumberFormat.getNumberInstance(locale);
    format.setMinimumFractionDigits(decimals);
    format.setMaximumFractionDigits(decimals);
    double shown = Math.abs(value) < 0.5 * Math.pow(10, -decimals) ? 0 : value;
    return format.format(shown).replace('-', MINUS);
  }

  /** A number, or a dash where there is none. */
  public String number(OptionalDouble value, int decimals) {
    return value.isPresent() ? number(value.getAsDouble(), decimals) : "–";
  }

  /** A number with its sign. */
  public String signed(double value, int decimals) {
    String text = number(value, decimals);
    return value > 0 && !text.equals(number(0, decimals)) ? "+" + text : text;
  }

  /** A whole number. */
  public String count(long value) {
    return NumberFormat.getIntegerInstance(locale).format(value);
  }

  /** A day and a time, with the zone. */
  public String time(Instant time) {
    return DateTimeFormatter.ofLocalizedDateTime(FormatStyle.MEDIUM, FormatStyle.SHORT)
            .withLocale(locale)
            .withZone(zone)
            .format(time)
        + " "
        + DateTimeFormatter.ofPattern("zzz", locale).withZone(zone).format(time);
  }

  /** A day. */
  public String day(Instant time) {
    return DateTimeFormatter.ofLocalizedDate(FormatStyle.MEDIUM)
        .withLocale(locale)
        .withZone(zone)
        .format(time);
  }

  /** A file's size. */
  public String bytes(long bytes) {
    if (bytes < 1000) {
      return count(bytes) + " B";
    }
    return bytes < 1_000_000 ? number(bytes / 1e3, 0) + " kB" : number(bytes / 1e6, 1) + " MB";
  }
}
