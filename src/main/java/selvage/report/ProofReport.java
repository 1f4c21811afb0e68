package selvage.report;

import java.time.Instant;
import java.time.ZoneOffset;
import java.time.format.DateTimeFormatter;
import java.util.ArrayList;
import java.util.List;
import java.util.Locale;
import java.util.Objects;
import java.util.Optional;
import java.util.stream.Collectors;
import selvage.score.Check;
import selvage.score.Mending;
import selvage.score.PatchMend;
import selvage.score.ProofScore;
import selvage.score.ScoredPatch;
import selvage.strip.PatchSet;
import selvage.strip.StripLabel;
import selvage.strip.StripsFile;

/**
 * What a report says of one scored strip, in the words that every form of the report uses.
 *
 * @param file the record of the stamped proof
 * @param score the score
 * @param sections what not every score has, in the order in which it is shown
 * @param time when the report was made
 */
public record ProofReport(
    StripsFile file, ProofScore score, List<ReportSection> sections, Instant time) {
  /** A name and what is told of it. */
  record Fact(String name, String value) {}

  private static final DateTimeFormatter TIME =
      DateTimeFormatter.ofPattern("yyyy-MM-dd HH:mm 'UTC'", Locale.ROOT).withZone(ZoneOffset.UTC);

  static final String SIMULATED = "SIMULATED: nobody measured a print for these figures.";
  static final String SCREENS =
      "Swatches are computed for an sRGB display; screens and office printers differ. Judge colour"
          + " on the proof itself, figures by the instrument.";

  public ProofReport {
    Objects.requireNonNull(file, "file");
    Objects.requireNonNull(score, "score");
    Objects.requireNonNull(time, "time");
    sections = List.copyOf(sections);
  }

  /** A report with the sections that the score itself gives rise to. */
  public static ProofReport of(StripsFile file, ProofScore score, Instant time) {
    return of(file, score, Optional.empty(), time);
  }

  /** The same with what would mend the print. */
  public static ProofReport of(
      StripsFile file, ProofScore score, Optional<Mending> mending, Instant time) {
    List<ReportSection> sections = new ArrayList<>();
    score
        .diagnosis()
        .ifPresent(found -> sections.add(ScoreWords.diagnosis(found.words(), found.readings())));
    score.repeatability().ifPresent(found -> sections.add(RepeatSection.of(found, score)));
    mending
        .filter(found -> !found.words().isEmpty())
        .ifPresent(found -> sections.add(mending(found, score)));
    return new ProofReport(file, score, sections, time);
  }

  private static ReportSection mending(Mending mending, ProofScore score) {
    List<List<String>> table = new ArrayList<>();
    for (PatchMend mend : mending.patches()) {
      if (score.patches().stream().anyMatch(patch -> patch.patch().equals(mend.patch()))) {
        table.add(
            List.of(
                mend.patch().id(),
                InkText.of(mend.patch().mixture()),
                InkText.of(mend.corrected()),
                Figures.fixed(mend.de00Now(), 2),
                Figures.fixed(mend.de00After(), 2),
                Figures.fixed(mend.limit(), 2)));
      }
    }
    if (!table.isEmpty()) {
      table.add(0, List.of("Patch", "Inks, %", "Corrected", "ΔE00 now", "predicted", "Limit"));
    }
    // What concerns a single patch stands in the table of its strip.
    List<String> general =
        mending.words().stream()
            .filter(
                sentence ->
                    mending.patches().stream()
                        .noneMatch(mend -> sentence.startsWith(mend.patch().id() + ": ")))
            .toList();
    List<String> words = general.isEmpty() && table.isEmpty() ? mending.words() : general;
    return new ReportSection("What would mend it", ScoreWords.withSigns(words), table);
  }

  String jobName() {
    return file.job().file();
  }

  /** For example {@code PASS}. */
  String verdictWord() {
    return score.verdict().name();
  }

  /** The verdict in a sentence, naming what stands against a pass. */
  String summary() {
    return ScoreWords.summary(
        score.verdict(),
        score.checks().stream()
            .map(
                check ->
                    new ScoreWords.Line(checkName(check), Figures.value(check), check.verdict()))
            .toList());
  }

  static String checkName(Check check) {
    return ScoreWords.checkName(check.limit().name());
  }

  static String metric(Check check) {
    return ScoreWords.figure(check.limit().metric(), check.limit().statistic());
  }

  static String setName(PatchSet set) {
    return ScoreWords.setName(set);
  }

  /** What was judged, against what, when. */
  List<Fact> facts() {
    List<Fact> facts = new ArrayList<>();
    facts.add(new Fact("Job", jobName()));
    facts.add(new Fact("Page", score.page() + " of " + file.job().pages()));
    facts.add(new Fact("Strip", score.stripId()));
    facts.add(new Fact("Printing condition", file.conditionName() + " (" + source() + ")"));
    facts.add(new Fact("Tolerance set", score.tolerance().name()));
    facts.add(new Fact("Measurement", score.source()));
    facts.add(new Fact("Measured", measured()));
    facts.add(
        new Fact(
            "Readings matched",
            score.alignment().how().replace('-', ' ')
                + ", confidence "
                + Figures.fixed(score.alignment().confidence(), 2)));
    facts.add(new Fact("Report made", TIME.format(time)));
    for (StripLabel.Item item : file.label()) {
      facts.add(new Fact(item.name(), item.value()));
    }
    return facts;
  }

  /** The value of a label item, or that it is not stated. */
  String labelItem(String name) {
    return file.label().stream()
        .filter(item -> item.name().equalsIgnoreCase(name))
        .map(StripLabel.Item::value)
        .findFirst()
        .orElse(StripLabel.NOT_STATED);
  }

  String date() {
    return TIME.format(time);
  }

  private String source() {
    return file.conditionSource().replace('-', ' ');
  }

  private String measured() {
    String prefix = "measured: ";
    return score.metricNotes().stream()
        .filter(note -> note.startsWith(prefix))
        .map(note -> note.substring(prefix.length()))
        .collect(Collectors.joining("; "));
  }

  /** How the figures were made, in one paragraph. */
  String method() {
    return String.join(". ", score.metricNotes()) + ".";
  }

  List<ScoredPatch> patches(PatchSet set) {
    return score.patches().stream().filter(patch -> patch.patch().set() == set).toList();
  }
}
