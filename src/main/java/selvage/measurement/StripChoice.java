package selvage.measurement;

import java.util.ArrayList;
import java.util.List;
import java.util.Locale;
import java.util.Map;
import java.util.Objects;
import java.util.Optional;
import java.util.OptionalInt;
import selvage.finding.Finding;
import selvage.finding.InputException;
import selvage.strip.Strip;
import selvage.strip.StripsFile;

/**
 * Which strip of a proof a measurement belongs to: the one that the user names; else the one whose
 * id stands in the file's header; else the only one that the readings fit.
 *
 * @param stripId the strip's id, where the user names it
 * @param page the strip's page counted from 1, where the user names it
 * @param allowMissing whether patches may lack a reading
 */
public record StripChoice(Optional<String> stripId, OptionalInt page, boolean allowMissing) {
  /** No wish of the user's. */
  public static final StripChoice ANY =
      new StripChoice(Optional.empty(), OptionalInt.empty(), false);

  public StripChoice {
    Objects.requireNonNull(stripId, "stripId");
    Objects.requireNonNull(page, "page");
  }

  /**
   * The strips that the user's wish leaves, all of them without a wish.
   *
   * @param fileName of the strips file, for messages
   * @throws InputException where no strip is of that id or page
   */
  public List<Strip> candidates(String fileName, StripsFile file) throws InputException {
    List<Strip> left = new ArrayList<>();
    for (Strip strip : file.strips()) {
      if ((stripId.isEmpty() || strip.stripId().equalsIgnoreCase(stripId.get()))
          && (page.isEmpty() || strip.page() == page.getAsInt())) {
        left.add(strip);
      }
    }
    if (left.isEmpty()) {
      throw InputException.of(
          fileName,
          "expected "
              + stripId.map(id -> "the strip " + id).orElse("a strip")
              + (page.isPresent() ? " of page " + page.getAsInt() : "")
              + ", found "
              + names(file.strips())
              + "; choose one of them");
    }
    return left;
  }

  /**
   * Matches the measurements of a file to strips.
   *
   * @param fileName of the strips file, for messages
   * @param measurements the tables of one measurement file
   * @return a match for each table; tables that name a strip which the user did not ask for are
   *     left out
   * @throws InputException where a table names a strip that the proof does not have, fits none or
   *     fits several
   */
  public List<MatchedStrip> match(String fileName, StripsFile file, List<Measurement> measurements)
      throws InputException {
    List<Strip> candidates = candidates(fileName, file);
    List<MatchedStrip> matches = new ArrayList<>();
    List<String> others = new ArrayList<>();
    for (Measurement measurement : measurements) {
      Optional<Strip> named = namedStrip(fileName, file, measurement);
      if (named.isPresent() && !candidates.contains(named.get())) {
        others.add(measurement.source() + " is of " + name(named.get()));
        continue;
      }
      matches.add(
          named.isPresent()
              ? Matching.match(named.get(), measurement, allowMissing)
              : onlyFit(candidates, measurement));
    }
    if (matches.isEmpty()) {
      throw InputException.of(
          fileName,
          "expected a measurement of "
              + names(candidates)
              + ", found that "
              + String.join(", ", others)
              + "; give the other file or choose the other strip");
    }
    return others.isEmpty() ? matches : withNote(matches, others);
  }

  private static List<MatchedStrip> withNote(List<MatchedStrip> matches, List<String> others) {
    MatchedStrip first = matches.get(0);
    List<Finding> findings = new ArrayList<>(first.findings());
    findings.add(
        Finding.note("other-strips-left-out", String.join(", ", others) + ": not asked for"));
    List<MatchedStrip> result = new ArrayList<>(matches);
    result.set(
        0,
        new MatchedStrip(
            first.strip(), first.measurement(), first.alignment(), first.readings(), findings));
    return result;
  }

  /** The strip whose id the header names. */
  private static Optional<Strip> namedStrip(
      String fileName, StripsFile file, Measurement measurement) throws InputException {
    String stated = measurement.header().getOrDefault(Measurement.STRIP_KEYWORD, "").strip();
    List<Strip> named = new ArrayList<>();
    for (Strip strip : file.strips()) {
      if (stated.isEmpty()
          ? isNamed(strip.stripId(), measurement.header())
          : strip.stripId().equalsIgnoreCase(stated)) {
        named.add(strip);
      }
    }
    named.removeIf(
        strip ->
            named.stream()
                .anyMatch(
                    other ->
                        other.stripId().length() > strip.stripId().length()
                            && contains(other.stripId(), strip.stripId())));
    if (!stated.isEmpty() && named.isEmpty()) {
      throw InputException.of(
          measurement.source(),
          "expected a measurement of "
              + names(file.strips())
              + " ("
              + fileName
              + "), found "
              + Measurement.STRIP_KEYWORD
              + " \""
              + stated
              + "\"; this is the measurement of another proof");
    }
    return named.size() == 1 ? Optional.of(named.get(0)) : Optional.empty();
  }

  private static boolean isNamed(String id, Map<String, String> header) {
    for (String value : header.values()) {
      if (contains(value, id)) {
        return true;
      }
    }
    return false;
  }

  /** Whether a text holds an id as a word of its own, capitals or not. */
  private static boolean contains(String text, String id) {
    String all = text.toUpperCase(Locale.ROOT);
    String word = id.toUpperCase(Locale.ROOT);
    for (int at = all.indexOf(word); at >= 0; at = all.indexOf(word, at + 1)) {
      int end = at + word.length();
      if ((at == 0 || !Character.isLetterOrDigit(all.charAt(at - 1)))
          && (end == all.length() || !Character.isLetterOrDigit(all.charAt(end)))) {
        return true;
      }
    }
    return false;
  }

  private MatchedStrip onlyFit(List<Strip> candidates, Measurement measurement)
      throws InputException {
    if (candidates.size() == 1) {
      return Matching.match(candidates.get(0), measurement, allowMissing);
    }
    List<MatchedStrip> fits = new ArrayList<>();
    InputException reason = null;
    for (Strip strip : candidates) {
      try {
        MatchedStrip match = Matching.match(strip, measurement, false);
        if (match.findings().stream().noneMatch(one -> one.code().equals("readings-left-out"))) {
          fits.add(match);
        }
      } catch (InputException e) {
        reason = e;
      }
    }
    if (fits.size() > 1) {
      fits.removeIf(match -> match.alignment().how().startsWith("by-order"));
    }
    if (fits.size() > 1) {
      fits.removeIf(match -> !namesAreInks(match));
    }
    if (fits.size() == 1) {
      return fits.get(0);
    }
    throw InputException.of(
        measurement.source(),
        "expected a header that names its strip, or readings that fit only one of these: "
            + names(candidates)
            + "; found nothing that tells; choose with --strip or --page"
            + (reason == null ? "" : " (" + reason.getMessage() + ")"));
  }

  /** Whether every reading's name is what its patch prints, as the program's own files have it. */
  private static boolean namesAreInks(MatchedStrip match) {
    for (MatchedStrip.PatchReading one : match.readings()) {
      if (!one.reading().name().equalsIgnoreCase(one.patch().mixture().toString())) {
        return false;
      }
    }
    return true;
  }

  private static String names(List<Strip> strips) {
    StringBuilder text = new StringBuilder();
    for (Strip strip : strips) {
      text.append(text.length() == 0 ? "" : ", ").append(name(strip));
    }
    return text.toString();
  }

  private static String name(Strip strip) {
    return "strip " + strip.stripId() + " (page " + strip.page() + ")";
  }
}
