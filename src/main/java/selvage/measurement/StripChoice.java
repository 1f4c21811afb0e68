package selvage.measurement;

import java.util.ArrayList;
import java.util.LinkedHashMap;
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
 * id stands in the file's header or name; else the only one that the readings fit.
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
   * Matches measurements to strips. Measurements of one strip are put together: parts joined,
   * repeats averaged.
   *
   * @param fileName of the strips file, for messages
   * @param measurements the tables of one measurement file or several
   * @return a match for each strip that was measured, in the order of the measurements; tables that
   *     name a strip which the user did not ask for are left out
   * @throws InputException where a table names a strip that the proof does not have, fits none or
   *     fits several
   */
  public List<MatchedStrip> match(String fileName, StripsFile file, List<Measurement> measurements)
      throws InputException {
    List<Strip> candidates = candidates(fileName, file);
    Map<Strip, List<Assignment>> byStrip = new LinkedHashMap<>();
    List<String> others = new ArrayList<>();
    TableConditions conditions = new TableConditions(file, measurements);
    for (Measurement measurement : conditions.kept()) {
      Optional<Strip> named = namedStrip(fileName, file, measurement);
      if (named.isPresent() && !candidates.contains(named.get())) {
        others.add(measurement.source() + " is of " + name(named.get()));
        continue;
      }
      Assignment assignment =
          named.isPresent()
              ? Matching.assign(named.get(), measurement)
              : StripFingerprint.bestFit(candidates, measurement);
      byStrip.computeIfAbsent(assignment.strip(), strip -> new ArrayList<>()).add(assignment);
    }
    if (byStrip.isEmpty()) {
      throw InputException.of(
          fileName,
          "expected a measurement of "
              + names(candidates)
              + ", found that "
              + String.join(", ", others)
              + "; give the other file or choose the other strip");
    }
    List<MatchedStrip> matches = new ArrayList<>();
    for (Map.Entry<Strip, List<Assignment>> one : byStrip.entrySet()) {
      MatchedStrip matched = Repeats.combined(one.getKey(), one.getValue(), allowMissing);
      matches.add(with(matched, conditions.findings(matched.measurement())));
    }
    return others.isEmpty() ? matches : withNote(matches, others);
  }

  private static MatchedStrip with(MatchedStrip matched, List<Finding> more) {
    List<Finding> findings = new ArrayList<>(matched.findings());
    findings.addAll(more);
    return new MatchedStrip(
        matched.strip(),
        matched.measurement(),
        matched.alignment(),
        matched.readings(),
        matched.repeatability(),
        findings);
  }

  private static List<MatchedStrip> withNote(List<MatchedStrip> matches, List<String> others) {
    List<MatchedStrip> result = new ArrayList<>(matches);
    result.set(
        0,
        with(
            matches.get(0),
            List.of(
                Finding.note(
                    "other-strips-left-out", String.join(", ", others) + ": not asked for"))));
    return result;
  }

  /** The strip whose id the header names. */
  private static Optional<Strip> namedStrip(
      String fileName, StripsFile file, Measurement measurement) throws InputException {
    String stated = measurement.header().getOrDefault(Measurement.STRIP_KEYWORD, "").strip();
    List<Strip> named = new ArrayList<>();
    for (Strip strip : file.strips()) {
      if (stated.isEmpty()
          ? isNamed(strip.stripId(), measurement)
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

  /** Whether the header or the file's own name holds an id. */
  private static boolean isNamed(String id, Measurement measurement) {
    String source = measurement.source();
    int slash = Math.max(source.lastIndexOf('/'), source.lastIndexOf('\\'));
    if (contains(source.substring(slash + 1), id)) {
      return true;
    }
    for (String value : measurement.header().values()) {
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

  static String names(List<Strip> strips) {
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
