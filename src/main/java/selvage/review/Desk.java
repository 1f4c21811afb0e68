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
import selvage.finding.InputException;
import selvage.hotfolder.DeskWork;
import selvage.hotfolder.FolderSettings;
import selvage.hotfolder.HandedIn;
import selvage.hotfolder.SafeName;
import selvage.ledger.JobRecord;
import selvage.separation.ContentLimits;
import selvage.sheet.Edge;
import selvage.strip.ChosenSet;
import selvage.strip.JobChoice;
import selvage.strip.JobSet;
import selvage.strip.MergedCensus;
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
  private final SetChanges changes;
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
    this.changes = new SetChanges(clock);
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
          if (HandedIn.isSeen(name) && Files.isRegularFile(file) && waiting.size() < most) {
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
        survey.pages().stream()
            .filter(one -> one.page() == page)
            .findFirst()
            .orElseThrow(
                () ->
                    InputException.of(
                        survey.job().file(),
                        "expected a page of 1 to " + survey.job().pages() + ", found " + page));
    Census census =
        ways.stamping().perJob() && inked.size() > 1
            ? MergedCensus.of(inked.stream().map(PageSurvey::census).toList())
            : wanted.census();
    return new OpenPage(
        survey.job(),
        survey.condition(),
        wanted,
        new JobChoice(
            census, StandardStrip.load(ways.stamping().standard()).aims(survey.condition())),
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

  /** What the set of a page's strip is worth. */
  public JobSet set(Review review, OpenPage page) {
    return page.set(review.choices().get(page.stripPage()));
  }

  /** What may be made of a set. */
  public SetChanges changes() {
    return changes;
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
