package selvage.hotfolder;

import java.nio.charset.StandardCharsets;

/** A name that a sender gave a file, as a name that can be given to a file. */
public final class SafeName {
  private static final int MOST_BYTES = 160;

  private SafeName() {}

  /**
   * Makes a name safe: its last part where it has folders, without signs that file systems or
   * terminals take for something else, without dots, tildes, dashes and spaces at its ends, at most
   * {@value #MOST_BYTES} bytes with its ending kept.
   *
   * @param standard where nothing is left
   */
  public static String of(String name, String standard) {
    String given = name == null ? "" : name;
    String last = given.substring(Math.max(given.lastIndexOf('/'), given.lastIndexOf('\\')) + 1);
    StringBuilder kept = new StringBuilder();
    last.codePoints()
        .forEach(
            c -> {
              boolean isSafe =
                  Character.isLetterOrDigit(c)
                      || Character.getType(c) == Character.NON_SPACING_MARK
                      || " ._-~()+,&'@#".indexOf(c) >= 0;
              kept.appendCodePoint(isSafe ? c : '_');
            });
    String safe = kept.toString().replaceAll("^[. ~-]+|[. ~]+$", "");
    if (safe.isEmpty()) {
      return standard;
    }
    String ending = Names.ending(safe);
    String stem = Names.stem(safe);
    while (bytes(stem + ending) > MOST_BYTES && stem.length() > 1) {
      stem = stem.substring(0, stem.offsetByCodePoints(stem.length(), -1));
    }
    return bytes(stem + ending) > MOST_BYTES ? standard : stem + ending;
  }

  private static int bytes(String text) {
    return text.getBytes(StandardCharsets.UTF_8).length;
  }
}
