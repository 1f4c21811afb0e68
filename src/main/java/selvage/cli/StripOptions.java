package selvage.cli;

import java.util.Optional;
import java.util.OptionalInt;
import selvage.cli.Declaration.Value;
import selvage.measurement.StripChoice;

/** The options that name a strip of a proof. */
final class StripOptions {
  private final Value<String> strip;
  private final Value<Integer> page;

  /** Declares them, with what the help says of each. */
  StripOptions(Declaration declaration, String ofStrip, String ofPage) {
    strip = declaration.option(String.class, "ID", null, ofStrip, "--strip");
    page = declaration.option(Integer.class, "N", null, ofPage, "--page");
  }

  /** The strip that was named, if any was. */
  StripChoice choice(boolean allowMissing) {
    return new StripChoice(
        Optional.ofNullable(strip.get()),
        page.get() == null ? OptionalInt.empty() : OptionalInt.of(page.get()),
        allowMissing);
  }
}
