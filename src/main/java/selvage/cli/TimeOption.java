package selvage.cli;

import java.time.Instant;
import java.time.format.DateTimeParseException;
import java.time.temporal.ChronoUnit;
import selvage.cli.Declaration.Value;

/** The option {@code --time}: the moment that is written into what a command makes. */
final class TimeOption {
  private final Declaration declaration;
  private final Value<String> text;

  /**
   * Declares it.
   *
   * @param use where the moment goes, in words
   * @param more what the help says besides
   */
  TimeOption(Declaration declaration, String use, String more) {
    this.declaration = declaration;
    this.text =
        declaration.option(
            String.class,
            "INSTANT",
            null,
            "Date and time "
                + use
                + ", UTC, for example 2026-11-25T10:03:00Z. Default: now."
                + more,
            "--time");
  }

  /** The moment given, else now to the second. */
  Instant get() {
    if (text.get() == null) {
      return Instant.now().truncatedTo(ChronoUnit.SECONDS);
    }
    try {
      return Instant.parse(text.get());
    } catch (DateTimeParseException e) {
      throw declaration.misuse(
          "--time: expected a time such as 2026-11-25T10:03:00Z, found \"" + text.get() + "\"");
    }
  }
}
