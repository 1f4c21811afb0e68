package selvage.workflow;

import java.io.IOException;
import java.nio.file.Path;
import java.time.ZoneOffset;
import java.time.format.DateTimeFormatter;
import java.util.ArrayList;
import java.util.HashSet;
import java.util.LinkedHashSet;
import java.util.List;
import java.util.Locale;
import java.util.Set;
import java.util.TreeSet;
import selvage.color.ReferenceCondition;
import selvage.finding.Finding;
import selvage.finding.InputException;
import selvage.sheet.InkOccupancy;
import selvage.sheet.ProofDocument;
import selvage.sheet.StampedStrip;
import selvage.strip.ChosenPatch;
import selvage.strip.ChosenSet;
import selvage.strip.JobChoice;
import selvage.strip.JobSet;
import selvage.strip.ReaderGeometry;
import selvage.strip.StandardStrip;
import selvage.strip.Strip;
import selvage.strip.StripContent;
import selvage.strip.StripLabel;
import selvage.strip.StripLayout;
import selvage.strip.Wishes;
import selvage.survey.JobSurvey;

/** Makes the strips of a surveyed job: their patches, chosen or approved, layout and place. */
final class StripMaker {
  /** ΔE*ab below which neighbours of a scanned row may run together (common practice). */
  private static final double LEAST_SCAN_CONTRAST = 20;

  private static final long SEED = 1;
  private static final DateTimeFormatter LABEL_TIME =
      DateTimeFormatter.ofPattern("uuuu-MM-dd HH:mm 'UTC'", Locale.ROOT).withZone(ZoneOffset.UTC);

  /**
   * A strip that lies on its page.
   *
   * @param share what it stands for
   * @param strip as results know it
   * @param findings doubts about its patches, layout and place
   */
  record Made(StripShare share, StampedStrip stamped, Strip strip, List<Finding> findings) {
    Made {
      findings = List.copyOf(findings);
    }
  }

  private final Path job;
  private final JobSurvey survey;
  private final StampOptions options;
  private final StandardStrip standard;
  private final ReaderGeometry reader;
  private final List<StripShare> shares;
  private final List<Finding> findings = new ArrayList<>();

  /**
   * Prepares the making.
   *
   * @param survey of this very file
   * @throws InputException where an option's file can't be used, no page bears ink, or patches were
   *     approved for a page that has no strip
   */
  StripMaker(Path job, JobSurvey survey, StampOptions options) throws InputException {
    this.job = job;
    this.survey = survey;
    this.options = options;
    this.standard = StandardStrip.load(options.standard());
    this.reader = ReaderGeometry.load(options.reader());
    Set<Finding> doubts = new LinkedHashSet<>(standard.findings());
    survey.pages().forEach(page -> doubts.addAll(page.findings()));
    findings.addAll(doubts);
    this.shares = StripShare.of(survey, options.perJob(), findings);
    if (shares.isEmpty()) {
      throw InputException.of(
          job.toString(),
          "expected ink within the counted area, found none on the pages taken; check --pages and"
              + " --area");
    }
    for (int page : new TreeSet<>(options.chosen().keySet())) {
      share(page);
    }
  }

  /** Doubts about the job and the options, before any strip is made. */
  List<Finding> findings() {
    return List.copyOf(findings);
  }

  /** What the strips stand for, in order of their pages; at least one. */
  List<StripShare> shares() {
    return shares;
  }

  /**
   * The share whose strip lies on a page.
   *
   * @throws InputException where there is none
   */
  StripShare share(int page) throws InputException {
    List<Integer> pages = new ArrayList<>();
    for (StripShare share : shares) {
      if (share.page() == page) {
        return share;
      }
      pages.add(share.page());
    }
    throw InputException.of(
        job.toString(),
        "page " + page + ": expected a page that bears a strip, which are " + pages);
  }

  /** When the strips are stamped, as their labels say it. */
  String labelTime() {
    return LABEL_TIME.format(options.time());
  }

  /**
   * Makes a strip and puts it on its page.
   *
   * @throws InputException where patches were approved that the job does not have
   */
  Made make(ProofDocument document, StripShare share) throws InputException, IOException {
    return make(document, share, new JobChoice(share.census(), standard.aims(survey.condition())));
  }

  /**
   * As {@link #make(ProofDocument, StripShare)}.
   *
   * @param choice for a census of the same mixtures and areas, with the aims of the same standard
   */
  Made make(ProofDocument document, StripShare share, JobChoice choice)
      throws InputException, IOException {
    JobSet set = choice.located(set(choice, share.page()), share.pages());
    StripContent content = content(share, set);
    StampedStrip stamped =
        document.stamp(
            share.page(),
            content,
            reader,
            share.spots(),
            options.edge(),
            share.ink() == null ? InkOccupancy.UNKNOWN : share.ink()::isBlank);
    Strip strip =
        new Strip(
            stamped.layout().stripId(),
            share.page(),
            SEED,
            stamped.place(),
            new Strip.Reader(reader.name(), reader.apertureMm()),
            stamped.patches(),
            set.coverage(),
            set.pages());
    return new Made(share, stamped, strip, findings(set, content, stamped));
  }

  /** The set that an operator approved, else the one that is chosen. */
  private JobSet set(JobChoice choice, int page) throws InputException {
    JobSet usual = choice.choose(options.patches(), Wishes.NONE);
    ChosenSet approved = options.chosen().get(page);
    if (approved == null || isAsChosen(approved, usual)) {
      return usual;
    }
    try {
      return choice.of(approved.patches());
    } catch (IllegalArgumentException e) {
      throw InputException.of(
          job.toString(),
          "page " + page + ": the approved patches don't fit: " + e.getMessage(),
          e);
    }
  }

  /** Whether an operator approved a set as it was chosen, whose doubts then stand as well. */
  private static boolean isAsChosen(ChosenSet approved, JobSet usual) {
    List<ChosenPatch> chosen =
        usual.patches().stream()
            .map(patch -> new ChosenPatch(patch.mixture(), patch.reason()))
            .toList();
    List<ChosenPatch> wanted = approved.patches();
    return approved.inThisOrder()
        ? wanted.equals(chosen)
        : wanted.size() == chosen.size() && new HashSet<>(wanted).equals(new HashSet<>(chosen));
  }

  private StripContent content(StripShare share, JobSet set) {
    ReferenceCondition condition = survey.condition();
    StripLabel label =
        new StripLabel(
            survey.job().file(),
            share.title(),
            condition.name(),
            labelTime(),
            options.labelItems());
    StripContent content =
        StripContent.of(
            survey.job().sha256(), share.page(), share.census(), set, standard, condition, label);
    ChosenSet approved = options.chosen().get(share.page());
    return approved != null && approved.inThisOrder() ? content.inGivenOrder() : content;
  }

  private List<Finding> findings(JobSet set, StripContent content, StampedStrip stamped) {
    String page = "page " + content.page() + ": ";
    List<Finding> found = new ArrayList<>();
    for (Finding finding : new LinkedHashSet<>(set.findings())) {
      found.add(new Finding(finding.code(), finding.severity(), page + finding.text()));
    }
    found.addAll(stamped.findings());
    StripLayout layout = stamped.layout();
    if (reader.reading() == ReaderGeometry.Reading.SCAN
        && reader.dividerMm() == 0
        && layout.leastContrast() < LEAST_SCAN_CONTRAST) {
      found.add(Finding.warning("neighbours-alike", page + alike(layout, content.inJobOrder())));
    }
    if (content.inJobOrder() && !layout.rowsAlikeBackwards().isEmpty()) {
      found.add(
          Finding.warning(
              "row-alike-backwards",
              page
                  + "in the operator's order, these rows look nearly the same from either end: "
                  + layout.rowsAlikeBackwards()
                  + " (row 1 is the lowest); a reading from the wrong end goes unnoticed, so begin"
                  + " at the bar and arrow, or change the order"));
    }
    return found;
  }

  private static String alike(StripLayout layout, boolean inJobOrder) {
    return String.format(
        Locale.ROOT,
        "two neighbours of a row differ by ΔE*ab %.1f only (no order of these patches"
            + " has more than %.1f everywhere), and this reader scans rows without"
            + " dividers; read them patch by patch, or use another reader%s",
        layout.leastContrast(),
        layout.contrastBound(),
        inJobOrder ? ", or let the patches be arranged instead of the operator's order" : "");
  }
}
