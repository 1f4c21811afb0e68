package selvage.review;

import java.net.URLDecoder;
import java.net.URLEncoder;
import java.nio.charset.StandardCharsets;
import java.util.List;
import java.util.TreeMap;
import selvage.ink.Colorant;
import selvage.ink.InkMixture;
import selvage.ink.Tint;

/**
 * A mixture as a word that forms and files can carry: {@code Cyan=20400&Dune+Red=51000}, tints in
 * {@link Tint} units, names as in a URL's query; exact both ways.
 */
public final class MixtureKey {
  private static final int MOST_LETTERS = 4096;

  private MixtureKey() {}

  /** The word of a mixture; empty for paper. */
  public static String of(InkMixture mixture) {
    StringBuilder key = new StringBuilder();
    mixture
        .units()
        .forEach(
            (colorant, units) ->
                key.append(key.length() == 0 ? "" : "&")
                    .append(URLEncoder.encode(colorant.name(), StandardCharsets.UTF_8))
                    .append('=')
                    .append(units.intValue()));
    return key.toString();
  }

  /**
   * The mixture of a word.
   *
   * @throws IllegalArgumentException where it is none
   */
  public static InkMixture parse(String key) {
    if (key.length() > MOST_LETTERS) {
      throw new IllegalArgumentException("a mixture of " + key.length() + " letters");
    }
    TreeMap<Colorant, Integer> units = new TreeMap<>();
    for (String part : key.isEmpty() ? List.<String>of() : List.of(key.split("&", -1))) {
      int equals = part.indexOf('=');
      if (equals < 1) {
        throw new IllegalArgumentException("expected INK=TINT, found \"" + part + "\"");
      }
      String name = URLDecoder.decode(part.substring(0, equals), StandardCharsets.UTF_8);
      int tint = Integer.parseInt(part.substring(equals + 1));
      if (tint < 0 || tint > Tint.FULL) {
        throw new IllegalArgumentException(
            "expected a tint of 0 to " + Tint.FULL + ", found " + tint);
      }
      units.put(Colorant.named(name), tint);
    }
    return InkMixture.ofUnits(units);
  }
}
