package selvage.color;

import java.io.IOException;
import java.io.InputStream;
import java.io.UncheckedIOException;
import java.util.Locale;

/**
 * The printing conditions that the program carries ({@code conditions/SOURCES.md}). The total ink
 * limits steer {@link ReferenceCondition#separate} only; they are common practice, no source.
 */
enum BuiltInCondition {
  /** Offset on coated paper, ISO 12647-2:2004/Amd 1, paper types 1 and 2. */
  FOGRA39(3.1),
  /** Offset on coated paper grade 1, ANSI CGATS TR 006-2007. */
  TR006(3.1),
  /** Offset on supercalendered paper. */
  FOGRA40(3.0),
  /** Coldset on newsprint, ANSI CGATS TR 002-2007. */
  TR002(2.6);

  private final double totalInk;

  /** What the file says, read once; always the same. */
  @SuppressWarnings("ImmutableEnumChecker")
  private CharacterizedCondition known;

  BuiltInCondition(double totalInk) {
    this.totalInk = totalInk;
  }

  /** The condition of exactly this name, as people write it ("Fogra 39"); null for any other. */
  static BuiltInCondition named(String text) {
    String squeezed = squeezed(text);
    for (BuiltInCondition condition : values()) {
      if (squeezed.equals(condition.name())
          || squeezed.equals(condition.name() + "L")
          || squeezed.equals("CGATS" + condition.name())) {
        return condition;
      }
    }
    return null;
  }

  /** The first condition that a text names ("Coated FOGRA39", "CGATS TR 006"); null for none. */
  static BuiltInCondition namedWithin(String text) {
    String squeezed = squeezed(text);
    for (BuiltInCondition condition : values()) {
      int at = squeezed.indexOf(condition.name());
      int end = at + condition.name().length();
      if (at >= 0 && (end == squeezed.length() || !Character.isDigit(squeezed.charAt(end)))) {
        return condition;
      }
    }
    return null;
  }

  private static String squeezed(String text) {
    StringBuilder squeezed = new StringBuilder();
    for (int i = 0; i < text.length(); i++) {
      char c = text.charAt(i);
      if (Character.isLetterOrDigit(c)) {
        squeezed.append(c);
      }
    }
    return squeezed.toString().toUpperCase(Locale.ROOT);
  }

  /** The condition, whose data are read and prepared once a process. */
  synchronized CharacterizedCondition load(ReferenceCondition.Origin origin) {
    if (known == null) {
      known = read();
    }
    return known.withOrigin(origin);
  }

  private CharacterizedCondition read() {
    String file = "/conditions/" + name() + ".packed";
    try (InputStream in = BuiltInCondition.class.getResourceAsStream(file)) {
      if (in == null) {
        throw new IllegalStateException("the program lacks its file " + file);
      }
      return new CharacterizedCondition(
          name(),
          ReferenceCondition.Origin.BUILT_IN,
          PackedCharacterization.unpack(name(), in.readAllBytes()),
          totalInk);
    } catch (IOException e) {
      throw new UncheckedIOException(file, e);
    }
  }
}
