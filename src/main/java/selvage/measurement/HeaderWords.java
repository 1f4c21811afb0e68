package selvage.measurement;

import java.util.ArrayList;
import java.util.List;
import java.util.Locale;
import java.util.Optional;
import java.util.Set;
import java.util.TreeSet;
import selvage.cgats.CgatsTable.Keyword;
import selvage.finding.Finding;
import selvage.finding.InputException;

/**
 * What a header says of the conditions of measurement. Files say it in free text under several
 * keywords: only plain words are understood, and what stays unclear is left unstated.
 */
final class HeaderWords {
  private static final Set<String> CONDITION_KEYWORDS =
      Set.of(
          "MEASUREMENT_CONDITION",
          "ILLUMINATION_CONDITION",
          "FILTER",
          "MEASUREMENT_FILTER",
          "MEASUREMENT_SOURCE",
          "MEASUREMENT_MODE",
          "ILLUMINATION",
          "INSTRUMENTATION");

  /** Free text that may speak of a polarizer, but names conditions only by the way. */
  private static final Set<String> TEXT_KEYWORDS =
      Set.of("DESCRIPTOR", "FILE_DESCRIPTOR", "PRINT_CONDITIONS", "COMPUTATIONAL_PARAMETER");

  private static final Set<String> POLARIZATION_KEYWORDS =
      Set.of("POLARIZATION", "POLARISATION", "POLARIZED");

  private static final Set<String> NO_WORDS =
      Set.of("NO", "NON", "NONE", "NOT", "WITHOUT", "FALSE", "OFF", "0", "UNPOLARIZED", "N");

  private static final Set<String> COLORIMETRY_KEYWORDS =
      Set.of(
          "ILLUMINANT", "WEIGHTING_FUNCTION", "OBSERVER", "MEASUREMENT_SOURCE", "INSTRUMENTATION");

  private static final Set<String> OTHER_ILLUMINANTS =
      Set.of("A", "C", "D55", "D65", "D75", "D93", "F2", "F7", "F11", "E");

  private final String fileName;
  private final List<Keyword> keywords;

  HeaderWords(String fileName, List<Keyword> keywords) {
    this.fileName = fileName;
    this.keywords = List.copyOf(keywords);
  }

  MeasurementCondition condition() {
    return new MeasurementCondition(
        illumination(),
        stated("SAMPLE_BACKING", "BACKING").map(HeaderWords::backing),
        stated("MEASUREMENT_GEOMETRY", "GEOMETRY"),
        stated("FILTER", "MEASUREMENT_FILTER"));
  }

  private Optional<String> stated(String... names) {
    for (String name : names) {
      for (Keyword keyword : keywords) {
        if (keyword.name().equals(name) && !keyword.value().isBlank()) {
          return Optional.of(keyword.value().strip());
        }
      }
    }
    return Optional.empty();
  }

  private static String backing(String value) {
    String lower = value.toLowerCase(Locale.ROOT);
    return lower.endsWith(" backing") ? lower.substring(0, lower.length() - 8) : lower;
  }

  /** M0 to M3; empty where nothing or more than one is named. */
  private Optional<String> illumination() {
    Set<String> named = new TreeSet<>();
    boolean polarized = false;
    boolean uvCut = false;
    for (Keyword keyword : keywords) {
      List<String> words = words(keyword.value());
      if (POLARIZATION_KEYWORDS.contains(keyword.name())) {
        polarized |= !words.isEmpty() && words.stream().noneMatch(NO_WORDS::contains);
      } else if (CONDITION_KEYWORDS.contains(keyword.name())) {
        for (String word : words) {
          if (word.length() == 2 && word.charAt(0) == 'M' && "0123".indexOf(word.charAt(1)) >= 0) {
            named.add(word);
          }
        }
        polarized |= speaksOfPolarizer(words);
        uvCut |= keyword.name().contains("FILTER") && speaksOfUvCut(words);
      } else if (TEXT_KEYWORDS.contains(keyword.name())) {
        polarized |= speaksOfPolarizer(words);
      }
    }
    if (polarized) {
      return Optional.of("M3");
    }
    if (named.isEmpty() && uvCut) {
      return Optional.of("M2");
    }
    return named.size() == 1 ? Optional.of(named.iterator().next()) : Optional.empty();
  }

  private static boolean speaksOfPolarizer(List<String> words) {
    for (int i = 0; i < words.size(); i++) {
      String word = words.get(i);
      boolean polarizer =
          word.equals("POL") || word.startsWith("POLARI") || word.equals("CROSSPOLARIZED");
      boolean denied =
          (i > 0 && NO_WORDS.contains(words.get(i - 1)))
              || (i + 1 < words.size() && NO_WORDS.contains(words.get(i + 1)));
      if (polarizer && !denied) {
        return true;
      }
    }
    return false;
  }

  private static boolean speaksOfUvCut(List<String> words) {
    String joined = String.join("", words);
    return joined.contains("UVCUT")
        || joined.contains("UVEXCL")
        || joined.contains("NOUV")
        || joined.equals("UV");
  }

  /**
   * Refuses colours that are plainly not for D50 and 2°.
   *
   * @throws InputException naming the header line
   */
  void requireD50() throws InputException {
    for (Keyword keyword : keywords) {
      if (!COLORIMETRY_KEYWORDS.contains(keyword.name())) {
        continue;
      }
      List<String> words = words(keyword.value());
      for (int i = 0; i < words.size(); i++) {
        String before = i == 0 ? keyword.name() : words.get(i - 1);
        boolean illuminant =
            before.equals("ILLUMINANT") && OTHER_ILLUMINANTS.contains(words.get(i));
        boolean observer =
            (before.startsWith("OBSERVER")
                    || (i + 1 < words.size() && words.get(i + 1).startsWith("DEG")))
                && (words.get(i).equals("10") || words.get(i).equals("10DEG"));
        if (illuminant || observer) {
          throw InputException.at(
              fileName,
              keyword.line(),
              keyword.name(),
              "expected colours for D50 and the 2° observer, found \""
                  + keyword.value()
                  + "\"; export them for D50 and 2°");
        }
      }
    }
  }

  /** Adds findings where the header leaves out how it was measured, or that nobody measured. */
  void findDoubts(String source, List<Finding> findings) {
    MeasurementCondition condition = condition();
    boolean simulated = simulated();
    if (!simulated && (condition.illumination().isEmpty() || condition.backing().isEmpty())) {
      findings.add(
          Finding.note(
              "measurement-condition-not-stated",
              source
                  + ": how it was measured is not stated in full ("
                  + condition.describe()
                  + "); make sure that it fits the aim values"));
    }
    if (simulated) {
      findings.add(
          Finding.warning(
              "simulated-measurement",
              source
                  + ": the file says that it is SIMULATED; nothing was printed or measured, and the"
                  + " verdict says nothing about a print"));
    }
  }

  /** Whether the header says that nobody measured this. */
  boolean simulated() {
    for (Keyword keyword : keywords) {
      if (keyword.name().equals(Measurement.SIMULATED_KEYWORD)) {
        return words(keyword.value()).stream().noneMatch(NO_WORDS::contains);
      }
      boolean speaks =
          switch (keyword.name()) {
            case "ORIGINATOR", "DESCRIPTOR", "FILE_DESCRIPTOR", "INSTRUMENTATION" -> true;
            default -> false;
          };
      if (speaks && words(keyword.value()).contains("SIMULATED")) {
        return true;
      }
    }
    return false;
  }

  /** Runs of letters and digits, in capitals. */
  private static List<String> words(String value) {
    List<String> words = new ArrayList<>();
    String capitals = value.toUpperCase(Locale.ROOT);
    int start = -1;
    for (int i = 0; i <= capitals.length(); i++) {
      boolean inside = i < capitals.length() && Character.isLetterOrDigit(capitals.charAt(i));
      if (inside && start < 0) {
        start = i;
      } else if (!inside && start >= 0) {
        words.add(capitals.substring(start, i));
        start = -1;
      }
    }
    return words;
  }
}
