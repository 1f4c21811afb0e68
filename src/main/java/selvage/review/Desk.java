package selvage.review;

import java.io.IOException;
import java.io.InputStream;
import java.nio.file.DirectoryStream;
import java.nio.file.Files;
import java.nio.file.NoSuchFileException;
import java.nio.file.Path;
import java.time.Clock;
import java.time.Instant;
import java.time.temporal.ChronoUnit;
import java.util.ArrayList;
import java.util.Comparator;
import java.util.HashMap;
import java.util.LinkedHashMap;
import java.util.List;
import java.util.Map;
import java.util.Optional;
import java.util.Set;
import java.util.concurrent.CompletableFuture;
import java.util.concurrent.ConcurrentHashMap;
import java.util.function.UnaryOperator;
import selvage.color.Lab;
import selvage.color.ReferenceCondition;
import selvage.finding.InputException;
import selvage.hotfolder.DeskWork;
import selvage.hotfolder.FolderSettings;
import selvage.hotfolder.SafeName;
import selvage.ink.InkMixture;
import selvage.ledger.JobRecord;
import selvage.separation.ContentLimits;
import selvage.sheet.Edge;
import selvage.strip.ChosenPatch;
import selvage.strip.ChosenSet;
import selvage.strip.JobChoice;
import selvage.strip.JobSet;
import selvage.strip.MergedCensus;
import selvage.strip.Reason;
import selvage.strip.StandardStrip;
import selvage.survey.AreaKind;
import selvage.survey.Census;
import selvage.survey.JobSurvey;
import selvage.survey.PageSurvey;
import selvage.workflow.StampOptions;
import selvage.workflow.StripPreview;
import selvage.workflow.SurveyJob;

/**
 * The jobs under review: takes them in, opens their pages, changes their sets, and has them stamped
 * when they are approved. Safe for use by many threads.
 */
public final class Desk implements AutoCloseable {
  private static final String REVIEWS = "reviews";
  private static final int AHEAD = 3;
  private static final int WARMING_TURNS = 3;

  private final Path folder;
  private final DeskWork work;
  private final Clock clock;
  private final PageCache pages;
  private final Map<String, Review> reviews = new ConcurrentHashMap<>();
  private final Map<String, FolderSettings> folders = new LinkedHashMap<>();

  /**
   * Opens the desk, with what lies on it.
   *
   * @param folder of the desk's own
   * @param work has jobs stamped and measurements scored; prepared already
   * @throws InputException where what lies there can't be used
   */
  public Desk(Path folder, DeskWork work, Clock clock) throws InputException, IOException {
    this.folder = folder;
    this.work = work;
    this.clock = clock;
    int threads = Math.max(2, Runtime.getRuntime().availableProcessors());
    this.pages = new PageCache(Runtime.getRuntime().maxMemory() / 4, threads);
    work.folders().forEach(one -> folders.put(one.name(), one));
    Files.createDirectories(folder.resolve(REVIEWS));
    try (DirectoryStream<Path> areas = Files.newDirectoryStream(folder.resolve(REVIEWS))) {
      for (Path area : areas) {
        if (Files.exists(area.resolve(Review.CHANGES))) {
          Review review = Review.read(area);
          reviews.put(review.id(), review);
        }
      }
    }
  }

  private Instant now() {
    return clock.instant().truncatedTo(ChronoUnit.MILLIS);
  }

  /** All reviews, the latest first. */
  public List<Review> reviews() {
    List<Review> all = new ArrayList<>(reviews.values());
    all.sort(Comparator.comparing(Review::received).reversed().thenComparing(Review::id));
    return all;
  }

  /** A review by its id; empty where there is none. */
  public Optional<Review> review(String id) {
    return Optional.ofNullable(reviews.get(id));
  }

  /** How the jobs of a review are stamped. */
  public FolderSettings folder(Review review) {
    FolderSettings known = folders.get(review.folder());
    return known == null ? folders.values().iterator().next() : known;
  }

  /** The hot folders, in their order. */
  public List<FolderSettings> folders() {
    return List.copyOf(folders.values());
  }

  /**
   * Takes a job in.
   *
   * @param name as the sender calls the file; made safe
   * @param folderName the hot folder whose ways it is stamped in; the first where there is none
   *     such
   * @param bytes the file; read to its end
   * @throws InputException where it is empty
   */
  public Review take(String name, String folderName, String who, InputStream bytes)
      throws InputException, IOException {
    Path part = Files.createTempFile(folder, "taking", ".part");
    try {
      Files.copy(bytes, part, java.nio.file.StandardCopyOption.REPLACE_EXISTING);
      String safe = SafeName.of(name, "job.pdf");
      if (Files.size(part) == 0) {
        throw InputException.of(safe, "expected a job, found an empty file");
      }
      String id = DeskWork.newId();
      String ways =
          folders.containsKey(folderName) ? folderName : folders.keySet().iterator().next();
      Path area = folder.resolve(REVIEWS).resolve(id);
      Review review = Review.begin(area, safe, ways, part, who, now());
      reviews.put(id, review);
      openAhead(review, 1);
      return review;
    } finally {
      Files.deleteIfExists(part);
    }
  }

  /**
   * Takes a job in that was stamped before, from the done folder, to be stamped otherwise.
   *
   * @throws InputException where its file is no longer there as it was
   */
  public Review takeAgain(JobRecord job, String who) throws InputException, IOException {
    FolderSettings ways = folders.get(job.folder());
    Optional<Path> file = ways == null ? Optional.empty() : work.original(ways, job);
    if (file.isEmpty()) {
      throw InputException.of(
          job.file(),
          "expected the job as it came in the done folder, found it there no longer; take the file"
              + " in anew");
    }
    String name = job.file().substring(job.file().lastIndexOf('/') + 1);
    try (InputStream bytes = Files.newInputStream(file.get())) {
      return take(name, job.folder(), who, bytes);
    }
  }

  /** Files in the incoming folders that nobody has taken yet, at most so many. */
  public List<Waiting> waiting(int most) throws IOException {
    List<Waiting> waiting = new ArrayList<>();
    for (FolderSettings ways : folders.values()) {
      try (DirectoryStream<Path> files = Files.newDirectoryStream(ways.places().incoming())) {
        for (Path file : files) {
          String name = String.valueOf(file.getFileName());
          if (!name.startsWith(".") && Files.isRegularFile(file) && waiting.size() < most) {
            waiting.add(new Waiting(name, ways.name()));
          }
        }
      } catch (NoSuchFileException e) {
        // A folder that is away has nothing that waits.
      }
    }
    return waiting;
  }

  /**
   * A file in an incoming folder.
   *
   * @param name its own
   * @param folder the hot folder's
   */
  public record Waiting(String name, String folder) {}

  /**
   * A page, opened already or soon.
   *
   * @param page counted from 1
   */
  public CompletableFuture<OpenPage> page(Review review, int page) {
    return open(review, page);
  }

  /** Opens the pages behind one ahead of time, once that one is seen. */
  public void openBehind(Review review, OpenPage page) {
    int number = page.survey().page();
    for (int next = number + 1; next <= Math.min(page.file().pages(), number + AHEAD); next++) {
      openAhead(review, next);
    }
  }

  /** Whether it can be opened is told to whoever asks for the page. */
  private void openAhead(Review review, int page) {
    CompletableFuture<OpenPage> unused = open(review, page);
  }

  private CompletableFuture<OpenPage> open(Review review, int page) {
    return pages.get(new PageCache.Key(review.id(), page), () -> opened(review, page));
  }

  /**
   * Goes through a review's work once, so that the first job of a day does not wait for code to be
   * loaded and compiled.
   *
   * @param job any
   */
  public void warmUp(Path job) throws InputException, IOException {
    FolderSettings ways = folders.values().iterator().next();
    for (int turn = 0; turn < WARMING_TURNS; turn++) {
      OpenPage page = opened(job, ways, 1);
      JobSet set = page.automatic();
      page.picture(Set.of(), false);
      page.nearness(set);
      page.set(page.automaticChoice());
    }
  }

  private OpenPage opened(Review review, int page) throws InputException, IOException {
    return opened(review.job(), folder(review), page);
  }

  private static OpenPage opened(Path job, FolderSettings ways, int page)
      throws InputException, IOException {
    JobSurvey survey = survey(job, ways, ways.stamping().perJob() ? null : String.valueOf(page));
    List<PageSurvey> inked =
        survey.pages().stream().filter(one -> one.census().inkedPercent() > 0).toList();
    PageSurvey wanted =
        survey.pages().stream().filter(one -> one.page() == page).findFirst().orElseThrow();
    Census census =
        ways.stamping().perJob() && inked.size() > 1
            ? MergedCensus.of(inked.stream().map(PageSurvey::census).toList())
            : wanted.census();
    return new OpenPage(
        survey.job(),
        survey.condition(),
        wanted,
        new JobChoice(census, standardAims(ways, survey.condition())),
        ways.stamping().patches(),
        ways.stamping().perJob() && !inked.isEmpty() ? inked.get(0).page() : page,
        survey.pages());
  }

  private static JobSurvey survey(Path job, FolderSettings ways, String pages)
      throws InputException, IOException {
    FolderSettings.Stamping how = ways.stamping();
    SurveyJob.Request request =
        new SurveyJob.Request(
            job,
            how.condition().orElse(null),
            pages,
            how.dpi(),
            AreaKind.TRIM,
            how.spots(),
            null,
            null,
            ContentLimits.USUAL);
    return new SurveyJob(request.withMapStep(1)).run();
  }

  private static List<Lab> standardAims(FolderSettings ways, ReferenceCondition condition)
      throws InputException {
    List<Lab> aims = new ArrayList<>();
    for (StandardStrip.StandardPatch patch :
        StandardStrip.load(ways.stamping().standard()).patches()) {
      double[] cmyk = patch.mixture().cmyk();
      aims.add(condition.aim(cmyk[0], cmyk[1], cmyk[2], cmyk[3]).lab());
    }
    return aims;
  }

  /** The set of a page's strip as it stands. */
  public PageChoice choice(Review review, OpenPage page) {
    PageChoice made = review.choices().get(page.stripPage());
    return made == null ? page.automaticChoice() : made;
  }

  /** What the set of a page's strip is worth. */
  public JobSet set(Review review, OpenPage page) {
    return page.set(review.choices().get(page.stripPage()));
  }

  /** What a change is made on, and by whom. */
  public record Editing(Review review, OpenPage page, int seen, String who) {}

  /**
   * Leaves a patch out.
   *
   * @throws InputException where the set has no such patch, or no other
   */
  public void drop(Editing at, InkMixture mixture)
      throws InputException, IOException, Review.StaleException {
    PageChoice now = choice(at.review, at.page);
    requireIn(now, mixture);
    if (now.patches().size() == 1) {
      throw InputException.of("the set", "expected another patch besides this one, found none");
    }
    change(at, Change.Kind.DROPPED, "left out " + words(mixture), one -> one.without(mixture));
  }

  /**
   * Takes a mixture of the job into the set.
   *
   * @throws InputException where the job does not have it, the set has it already, or is full
   */
  public void add(Editing at, InkMixture mixture)
      throws InputException, IOException, Review.StaleException {
    PageChoice now = choice(at.review, at.page);
    if (mixture.isPaper() || at.page.choice().row(mixture).isEmpty()) {
      throw InputException.of(
          words(mixture), "expected a mixture that the job prints here, found none such");
    }
    if (now.indexOf(mixture) >= 0) {
      throw InputException.of(words(mixture), "is in the set already");
    }
    if (now.patches().size() >= JobSet.MOST_PATCHES) {
      throw InputException.of(
          "the set", "has " + JobSet.MOST_PATCHES + " patches, and takes no more; drop one first");
    }
    ChosenPatch patch = new ChosenPatch(mixture, reason(at.page, mixture));
    change(at, Change.Kind.ADDED, "took in " + words(mixture), one -> one.with(patch));
  }

  /** A patch that was chosen and is taken back keeps the reason that it was chosen for. */
  private static Reason reason(OpenPage page, InkMixture mixture) {
    return page.automaticChoice().patches().stream()
        .filter(patch -> patch.mixture().equals(mixture))
        .map(ChosenPatch::reason)
        .findFirst()
        .orElse(Reason.OPERATOR);
  }

  /** Keeps a patch whatever number is asked for, or no longer. */
  public void keep(Editing at, InkMixture mixture, boolean keep)
      throws InputException, IOException, Review.StaleException {
    requireIn(choice(at.review, at.page), mixture);
    change(
        at,
        Change.Kind.KEPT,
        (keep ? "keeps " : "no longer keeps ") + words(mixture),
        one -> one.keeping(mixture, keep));
  }

  /**
   * Moves a patch.
   *
   * @param to its new place, counted from 0
   */
  public void move(Editing at, InkMixture mixture, int to)
      throws InputException, IOException, Review.StaleException {
    requireIn(choice(at.review, at.page), mixture);
    change(
        at,
        Change.Kind.MOVED,
        "moved " + words(mixture) + " to place " + (to + 1),
        one -> one.moved(mixture, to));
  }

  /**
   * Chooses anew with another number; what is kept stays, what was left out stays out.
   *
   * @param count 1 to {@link JobSet#MOST_PATCHES}, or 0 for as many as pay
   */
  public void count(Editing at, int count)
      throws InputException, IOException, Review.StaleException {
    if (count < 0 || count > JobSet.MOST_PATCHES) {
      throw InputException.of(
          "the number of patches", "expected 1 to " + JobSet.MOST_PATCHES + ", found " + count);
    }
    PageChoice now = choice(at.review, at.page);
    JobSet set = at.page.choice().choose(count, now.wishes());
    if (set.patches().isEmpty()) {
      throw InputException.of("the set", "would have no patch left; take one in first");
    }
    change(
        at,
        Change.Kind.COUNTED,
        count == 0 ? "asked for as many as pay" : "asked for " + count + " patches",
        one -> OpenPage.of(set, one.kept(), one.dropped(), count));
  }

  /** Goes back to the automatic set. */
  public void reset(Editing at) throws IOException, Review.StaleException {
    at.review.change(
        at.seen,
        at.who,
        now(),
        Change.Kind.RESET,
        at.page.stripPage(),
        "went back to the automatic set",
        null);
  }

  public void undo(Editing at) throws IOException, Review.StaleException {
    at.review.undo(at.seen, at.who, now());
  }

  public void redo(Editing at) throws IOException, Review.StaleException {
    at.review.redo(at.seen, at.who, now());
  }

  private void change(Editing at, Change.Kind kind, String text, UnaryOperator<PageChoice> made)
      throws IOException, Review.StaleException {
    PageChoice next = made.apply(choice(at.review, at.page));
    at.review.change(at.seen, at.who, now(), kind, at.page.stripPage(), text, next);
  }

  private static void requireIn(PageChoice choice, InkMixture mixture) throws InputException {
    if (choice.indexOf(mixture) < 0) {
      throw InputException.of(words(mixture), "expected a patch of the set, found none such");
    }
  }

  private static String words(InkMixture mixture) {
    return selvage.report.InkText.of(mixture);
  }

  /** The strip of a page as it will be stamped. */
  public StripPreview strip(Review review, OpenPage page) throws InputException, IOException {
    FolderSettings ways = folder(review);
    StampOptions options =
        new StampOptions(
            ways.stamping().patches(),
            ways.stamping().standard(),
            ways.stamping().reader(),
            Edge.named(ways.stamping().edge()),
            ways.stamping().perJob(),
            Optional.empty(),
            ways.stamping().label(),
            now(),
            chosen(review));
    return StripPreview.of(review.job(), page.job(), page.stripPage(), options, page.choice());
  }

  private static Map<Integer, ChosenSet> chosen(Review review) {
    Map<Integer, ChosenSet> chosen = new HashMap<>();
    review.choices().forEach((page, choice) -> chosen.put(page, choice.chosen()));
    return chosen;
  }

  /**
   * Has a job stamped with the sets as they stand, all its pages.
   *
   * @param seen the version that is approved
   * @throws InputException where it can't be stamped; the review stays open
   */
  public DeskWork.Done approve(Review review, int seen, String who)
      throws InputException, IOException, Review.StaleException {
    synchronized (review) {
      review.checkOpen(seen);
      List<Change> changes = new ArrayList<>(review.changes());
      changes.add(new Change(now(), who, Change.Kind.APPROVED, 0, "approved", review.choices()));
      DeskWork.Done done =
          work.stamp(
              folder(review),
              review.id(),
              review.name(),
              review.job(),
              chosen(review),
              Map.of(".review.json", ReviewJson.record(review.id(), review.name(), changes)));
      review.approve(who, now(), "approved; stamped " + done.text());
      pages.forget(review.id());
      return done;
    }
  }

  /** Notes that a job was stamped where the program stopped right after that. */
  public void settled(Review review) throws IOException {
    if (review.approval().isEmpty()) {
      review.approve("", now(), "approved before a stop of the program");
    }
  }

  /** Takes a job off the desk; its file and its changes are removed. */
  public void discard(Review review) throws IOException {
    synchronized (review) {
      reviews.remove(review.id());
      pages.forget(review.id());
      DeskWork.removeTree(review.area());
    }
  }

  @Override
  public void close() {
    pages.close();
  }
}
