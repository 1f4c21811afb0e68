package selvage.workflow;

import com.fasterxml.jackson.core.JsonGenerator;
import java.io.IOException;
import java.nio.file.Files;
import java.nio.file.Path;
import java.time.ZoneOffset;
import java.time.format.DateTimeFormatter;
import java.util.ArrayList;
import java.util.HashMap;
import java.util.LinkedHashSet;
import java.util.List;
import java.util.Locale;
import java.util.Map;
import java.util.Set;
import selvage.color.Lab;
import selvage.color.ReferenceCondition;
import selvage.color.SpotInk;
import selvage.finding.Finding;
import selvage.finding.InputException;
import selvage.sheet.InkOccupancy;
import selvage.sheet.ProofDocument;
import selvage.sheet.StampedStrip;
import selvage.sheet.StripsAlone;
import selvage.strip.JobSet;
import selvage.strip.MergedCensus;
import selvage.strip.PageColors;
import selvage.strip.ReaderGeometry;
import selvage.strip.StandardStrip;
import selvage.strip.Strip;
import selvage.strip.StripContent;
import selvage.strip.StripLabel;
import selvage.strip.StripText;
import selvage.strip.StripsFile;
import selvage.strip.StripsJson;
import selvage.survey.Census;
import selvage.survey.InkMap;
import selvage.survey.JobSurvey;
import selvage.survey.PageSurvey;

/**
 * Stamps a surveyed job: chooses patches, lays out a strip a page, puts it on the sheet or on a
 * page of its own, and writes the proof with its strip files.
 */
public final class StampJob {
  /** ΔE*ab below which neighbours of a scanned row may run together (common practice). */
  private static final double LEAST_SCAN_CONTRAST = 20;

  private static final long SEED = 1;
  private static final DateTimeFormatter LABEL_TIME =
      DateTimeFormatter.ofPattern("uuuu-MM-dd HH:mm 'UTC'", Locale.ROOT).withZone(ZoneOffset.UTC);

  /**
   * What came of it.
   *
   * @param strips the record that was written beside the proof
   * @param findings doubts, those of the survey first
   * @param written the files, the proof first
   */
  public record Result(StripsFile strips, List<Finding> findings, List<Path> written) {
    public Result {
      findings = List.copyOf(findings);
      written = List.copyOf(written);
    }

    /** Writes the record as JSON, findings with it: what lies beside the proof. */
    public void writeTo(JsonGenerator json) throws IOException {
      StripsJson.write(strips, findings, json);
    }
  }

  /** What one strip stands for. */
  private record Share(
      int page,
      Census census,
      List<PageColors> pages,
      Map<String, SpotInk> spots,
      InkMap ink,
      String title) {}

  private final Path job;
  private final JobSurvey survey;
  private final StampOptions options;
  private final StandardStrip standard;
  private final ReaderGeometry reader;
  private final List<Finding> findings = new ArrayList<>();
  private final List<Strip> strips = new ArrayList<>();

  private StampJob(Path job, JobSurvey survey, StampOptions options) throws InputException {
    this.job = job;
    this.survey = survey;
    this.options = options;
    this.standard = StandardStrip.load(options.standard());
    this.reader = ReaderGeometry.load(options.reader());
    Set<Finding> doubts = new LinkedHashSet<>(standard.findings());
    survey.pages().forEach(page -> doubts.addAll(page.findings()));
    findings.addAll(doubts);
  }

  /**
   * Stamps and writes {@code PROOF.pdf}, {@code PROOF.strips.json} and {@code
   * PROOF.strip-pNNN.txt}.
   *
   * @param survey of this very file
   * @param proof the stamped PDF's name
   * @throws InputException where the job, an option's file or the target can't be used; nothing is
   *     written then
   */
  public static Result run(Path job, JobSurvey survey, Path proof, StampOptions options)
      throws InputException, IOException {
    checkTarget(job, proof);
    if (options.separate().isPresent()) {
      checkTarget(job, options.separate().get());
      checkTarget(proof, options.separate().get());
    }
    return new StampJob(job, survey, options).stamp(proof);
  }

  private static void checkTarget(Path job, Path target) throws InputException, IOException {
    boolean same = job.toAbsolutePath().normalize().equals(target.toAbsolutePath().normalize());
    if (same || (Files.exists(target) && Files.exists(job) && Files.isSameFile(job, target))) {
      throw InputException.of(
          target.toString(), "would overwrite " + job + "; give the output another name");
    }
  }

  private Result stamp(Path proof) throws InputException, IOException {
    List<Share> shares = shares();
    if (shares.isEmpty()) {
      throw InputException.of(
          job.toString(),
          "expected ink within the counted area, found none on the pages taken; check --pages and"
              + " --area");
    }
    String stem = stem(proof);
    List<Path> written = new ArrayList<>();
    try (StagedFiles files = new StagedFiles();
        ProofDocument document = ProofDocument.open(job)) {
      findings.addAll(document.findings());
      List<StampedStrip> stamped = new ArrayList<>();
      for (Share share : shares) {
        stamped.add(stamp(document, share));
      }
      if (options.separate().isPresent()) {
        writeAlone(files, options.separate().get(), shares, stamped);
        written.add(options.separate().get());
      }
      StripsFile record =
          new StripsFile(
              survey.job(),
              String.valueOf(proof.getFileName()),
              survey.condition().name(),
              survey.condition().origin().word(),
              strips,
              labelItems());
      for (Strip strip : strips) {
        Path text =
            proof.resolveSibling(
                String.format(Locale.ROOT, "%s.strip-p%03d.txt", stem, strip.page()));
        files.add(text, StripText.write(survey.job(), survey.condition().name(), strip));
        written.add(text);
      }
      Path json = proof.resolveSibling(stem + ".strips.json");
      files.add(json, StripsJson.write(record, findings));
      written.add(0, json);
      files.add(proof, out -> document.write(out, options.time(), fileSeed()));
      written.add(0, proof);
      files.publish();
      return new Result(record, findings, written);
    }
  }

  private List<StripLabel.Item> labelItems() {
    List<StripLabel.Item> items = new ArrayList<>(options.labelItems());
    items.add(new StripLabel.Item("Stamped", LABEL_TIME.format(options.time())));
    return items;
  }

  /** The proof's name without {@code .pdf}. */
  private static String stem(Path proof) {
    String name = String.valueOf(proof.getFileName());
    boolean pdf = name.toLowerCase(Locale.ROOT).endsWith(".pdf") && name.length() > 4;
    return pdf ? name.substring(0, name.length() - 4) : name;
  }

  private long fileSeed() {
    return Long.parseUnsignedLong(survey.job().sha256().substring(0, 16), 16);
  }

  private List<Share> shares() {
    List<PageSurvey> inked = new ArrayList<>();
    for (PageSurvey page : survey.pages()) {
      if (page.census().inkedPercent() > 0) {
        inked.add(page);
      } else {
        findings.add(
            Finding.note(
                "page-without-ink",
                "page " + page.page() + ": bears no ink within the counted area; not stamped"));
      }
    }
    String of = " of " + survey.job().pages();
    if (options.perJob() && inked.size() > 1) {
      Map<String, SpotInk> spots = new HashMap<>();
      inked.forEach(page -> page.spots().forEach(spots::putIfAbsent));
      Census all = MergedCensus.of(inked.stream().map(PageSurvey::census).toList());
      return List.of(
          new Share(
              inked.get(0).page(),
              all,
              inked.stream().map(StampJob::colors).toList(),
              spots,
              inked.get(0).ink(),
              "for " + inked.size() + " pages" + of));
    }
    List<Share> shares = new ArrayList<>();
    for (PageSurvey page : inked) {
      shares.add(
          new Share(
              page.page(),
              page.census(),
              List.of(colors(page)),
              page.spots(),
              page.ink(),
              "page " + page.page() + of));
    }
    return shares;
  }

  private static PageColors colors(PageSurvey page) {
    return new PageColors(page.page(), page.dpi(), page.census());
  }

  private StampedStrip stamp(ProofDocument document, Share share) throws IOException {
    ReferenceCondition condition = survey.condition();
    List<Lab> standardAims = new ArrayList<>();
    for (StandardStrip.StandardPatch patch : standard.patches()) {
      double[] cmyk = patch.mixture().cmyk();
      standardAims.add(condition.aim(cmyk[0], cmyk[1], cmyk[2], cmyk[3]).lab());
    }
    JobSet set =
        JobSet.choose(share.census(), options.patches(), standardAims).located(share.pages());
    StripLabel label =
        new StripLabel(
            survey.job().file(),
            share.title(),
            condition.name(),
            LABEL_TIME.format(options.time()),
            options.labelItems());
    StripContent content =
        StripContent.of(
            survey.job().sha256(), share.page(), share.census(), set, standard, condition, label);
    StampedStrip stamped =
        document.stamp(
            share.page(),
            content,
            reader,
            share.spots(),
            options.edge(),
            share.ink() == null ? InkOccupancy.UNKNOWN : share.ink()::isBlank);
    strips.add(
        new Strip(
            stamped.layout().stripId(),
            share.page(),
            SEED,
            stamped.place(),
            new Strip.Reader(reader.name(), reader.apertureMm()),
            stamped.patches(),
            set.coverage(),
            set.pages()));
    addFindings(share, set, stamped);
    return stamped;
  }

  private void addFindings(Share share, JobSet set, StampedStrip stamped) {
    Set<Finding> found = new LinkedHashSet<>(set.findings());
    for (Finding finding : found) {
      findings.add(
          new Finding(
              finding.code(), finding.severity(), "page " + share.page() + ": " + finding.text()));
    }
    findings.addAll(stamped.findings());
    double contrast = stamped.layout().leastContrast();
    if (reader.reading() == ReaderGeometry.Reading.SCAN
        && reader.dividerMm() == 0
        && contrast < LEAST_SCAN_CONTRAST) {
      findings.add(
          Finding.warning(
              "neighbours-alike",
              String.format(
                  Locale.ROOT,
                  "page %d: two neighbours of a row differ by ΔE*ab %.1f only (no order of these patches"
                      + " has more than %.1f everywhere), and this reader scans rows without"
                      + " dividers; read them patch by patch, or use another reader",
                  share.page(),
                  contrast,
                  stamped.layout().contrastBound())));
    }
  }

  private void writeAlone(
      StagedFiles files, Path target, List<Share> shares, List<StampedStrip> stamped)
      throws InputException, IOException {
    try (StripsAlone alone = StripsAlone.of(job)) {
      for (int i = 0; i < stamped.size(); i++) {
        alone.add(stamped.get(i).layout(), shares.get(i).spots());
      }
      files.add(target, out -> alone.write(out, options.time(), fileSeed()));
    }
  }
}
