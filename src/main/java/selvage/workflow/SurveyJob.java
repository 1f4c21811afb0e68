package selvage.workflow;

import java.io.IOException;
import java.io.InterruptedIOException;
import java.nio.file.Files;
import java.nio.file.Path;
import java.util.ArrayList;
import java.util.HashMap;
import java.util.List;
import java.util.Map;
import java.util.Objects;
import java.util.Optional;
import java.util.Set;
import java.util.TreeSet;
import java.util.concurrent.ExecutionException;
import java.util.concurrent.FutureTask;
import java.util.function.BiConsumer;
import java.util.function.IntConsumer;
import selvage.color.AimModel;
import selvage.color.ConditionChoice;
import selvage.color.ReferenceCondition;
import selvage.color.ReferenceConditions;
import selvage.color.SpotInk;
import selvage.color.SpotLibrary;
import selvage.finding.Finding;
import selvage.finding.InputException;
import selvage.ink.Colorant;
import selvage.separation.BandSink;
import selvage.separation.ContentLimits;
import selvage.separation.OutputIntent;
import selvage.separation.PageGeometry;
import selvage.separation.PageSeparation;
import selvage.separation.PdfJob;
import selvage.survey.AreaKind;
import selvage.survey.CensusBuilder;
import selvage.survey.ColorMap;
import selvage.survey.InkMap;
import selvage.survey.JobFile;
import selvage.survey.JobSurvey;
import selvage.survey.PageRanges;
import selvage.survey.PageSurvey;
import selvage.survey.PlaneWriter;
import selvage.survey.PreviewWriter;

/** Separates a job and takes the census of its pages. */
public final class SurveyJob {
  /**
   * What is asked.
   *
   * @param job the PDF
   * @param condition a built-in name, an ICC profile or a characterization file; null for the job's
   *     output intent, else the default
   * @param pages ranges such as {@code 1-3,7}; null for all
   * @param dpi samples an inch, 18 to 1200
   * @param area what is counted
   * @param spotLibraries spot colour libraries; the first that has a colour counts
   * @param planes a folder for one PNG a colorant and page; null for none
   * @param preview a file for a picture of the page, numbered where there are several; null for
   *     none
   * @param limits what a page may cost
   * @param mapStep samples from one place of each page's {@link ColorMap} to the next, at least 1
   */
  public record Request(
      Path job,
      String condition,
      String pages,
      double dpi,
      AreaKind area,
      List<Path> spotLibraries,
      Path planes,
      Path preview,
      ContentLimits limits,
      int mapStep) {
    public Request {
      Objects.requireNonNull(job, "job");
      Objects.requireNonNull(area, "area");
      Objects.requireNonNull(limits, "limits");
      spotLibraries = List.copyOf(spotLibraries);
      if (mapStep < 1) {
        throw new IllegalArgumentException("a map with a step of " + mapStep + ", at least 1");
      }
    }

    /** A request with the usual map. */
    public Request(
        Path job,
        String condition,
        String pages,
        double dpi,
        AreaKind area,
        List<Path> spotLibraries,
        Path planes,
        Path preview,
        ContentLimits limits) {
      this(
          job,
          condition,
          pages,
          dpi,
          area,
          spotLibraries,
          planes,
          preview,
          limits,
          ColorMap.DEFAULT_STEP);
    }

    /** A request with everything left at its default. */
    public static Request of(Path job) {
      return new Request(
          job, null, null, 150, AreaKind.TRIM, List.of(), null, null, ContentLimits.USUAL);
    }

    /** The same request with another map; a step of 1 holds every sample. */
    public Request withMapStep(int step) {
      return new Request(
          job, condition, pages, dpi, area, spotLibraries, planes, preview, limits, step);
    }
  }

  private final Request request;
  private final IntConsumer progress;
  private final BiConsumer<ReferenceCondition, PageSurvey> done;

  /**
   * Prepares a survey.
   *
   * @param progress is told each page's number before it is read
   */
  public SurveyJob(Request request, IntConsumer progress) {
    this(request, progress, (condition, page) -> {});
  }

  /**
   * Prepares a survey that hands each page over as soon as it is read.
   *
   * @param progress is told each page's number before it is read
   * @param done takes the job's reference printing condition and each page, in order, on the thread
   *     that runs the survey
   */
  public SurveyJob(
      Request request, IntConsumer progress, BiConsumer<ReferenceCondition, PageSurvey> done) {
    this.request = request;
    this.progress = progress;
    this.done = done;
  }

  public SurveyJob(Request request) {
    this(request, page -> {});
  }

  /**
   * Surveys the job.
   *
   * @throws InputException if the job, the condition or a library can't be used
   * @throws IOException if the planes or the preview can't be written
   */
  public JobSurvey run() throws InputException, IOException {
    if (!(request.dpi() >= 18 && request.dpi() <= 1200)) {
      throw InputException.of("--dpi " + request.dpi(), "expected 18 to 1200");
    }
    Map<String, SpotInk> library = new HashMap<>();
    List<Finding> findings = new ArrayList<>();
    FutureTask<String> digest = new FutureTask<>(() -> FileDigest.sha256(request.job()));
    for (Path file : request.spotLibraries()) {
      SpotLibrary read = SpotLibrary.read(file);
      read.inks().forEach(library::putIfAbsent);
      findings.addAll(read.findings());
    }
    try (PdfJob job = PdfJob.open(request.job(), request.limits())) {
      Thread digesting = new Thread(digest, "digest");
      digesting.setDaemon(true);
      digesting.start();
      ConditionChoice choice = condition(job);
      findings.addAll(choice.findings());
      List<PageSurvey> pages = new ArrayList<>();
      List<Integer> numbers = PageRanges.parse(request.pages(), job.pageCount());
      try (PreviewWriter preview = previewOf(numbers.size())) {
        for (int page : numbers) {
          progress.accept(page);
          PageSurvey read = survey(job, page, choice.condition(), library, findings, preview);
          pages.add(read);
          done.accept(choice.condition(), read);
        }
        if (preview != null) {
          preview.publish();
        }
      }
      return new JobSurvey(
          new JobFile(String.valueOf(request.job().getFileName()), result(digest), job.pageCount()),
          choice.condition(),
          pages);
    }
  }

  /** Null where none is asked for. */
  private PreviewWriter previewOf(int pages) throws InputException, IOException {
    Path file = request.preview();
    if (file == null) {
      return null;
    }
    if (Files.exists(file) && Files.isSameFile(file, request.job())) {
      throw InputException.of(
          "--preview " + file, "it is the job itself; give the picture another name");
    }
    return new PreviewWriter(file, pages);
  }

  private ConditionChoice condition(PdfJob job) throws InputException {
    if (request.condition() != null) {
      return ReferenceConditions.resolve(request.condition());
    }
    Optional<OutputIntent> intent = job.outputIntent();
    if (intent.isPresent()) {
      return ReferenceConditions.forOutputIntent(
          intent.get().identifier(), intent.get().info(), intent.get().profile());
    }
    return new ConditionChoice(ReferenceConditions.defaultCondition(), List.of());
  }

  private PageSurvey survey(
      PdfJob job,
      int page,
      ReferenceCondition condition,
      Map<String, SpotInk> library,
      List<Finding> jobFindings,
      PreviewWriter preview)
      throws InputException, IOException {
    PageGeometry geometry = job.geometry(page, request.dpi());
    PageGeometry.Box counted =
        switch (request.area()) {
          case TRIM -> geometry.trim();
          case BLEED -> geometry.bleed();
          case MEDIA -> geometry.media();
        };
    CensusBuilder census = new CensusBuilder(geometry.window(counted), request.mapStep());
    InkMap ink = new InkMap(geometry);
    BandSink sink = both(census, ink);
    List<Finding> findings = new ArrayList<>(jobFindings);
    Map<String, SpotInk> spots;
    PageSeparation separation;
    AimModel aims;
    try (PlaneWriter planes =
            request.planes() == null ? null : new PlaneWriter(request.planes(), page, geometry);
        PreviewWriter.Page picture = preview == null ? null : preview.page(page, geometry)) {
      sink = planes == null ? sink : both(sink, planes);
      sink = picture == null ? sink : both(sink, picture.sink());
      separation = job.separate(page, request.dpi(), condition, sink);
      findings.addAll(separation.findings());
      spots = spots(job, page, separation, library, findings);
      aims = new AimModel(condition, spots);
      if (picture != null) {
        picture.paint(aims);
      }
      if (planes != null) {
        planes.finish();
      }
    }
    for (String spot : job.uncoloredInks(page)) {
      if (!library.containsKey(spot)) {
        findings.add(
            Finding.warning(
                "ink-color-unknown",
                "page "
                    + page
                    + ": the image does not say which colour the ink "
                    + spot
                    + " has, and a neutral stands for it; give its colour with --spots"));
      }
    }
    if (census.isCoarse()) {
      findings.add(
          Finding.note(
              "census-coarse",
              "page "
                  + page
                  + ": its images have so many mixtures that theirs were counted on a coarser"
                  + " scale"));
    }
    return new PageSurvey(
        page,
        request.dpi(),
        request.area(),
        geometry.displayedWidthMm(geometry.trim()),
        geometry.displayedHeightMm(geometry.trim()),
        census.build(aims),
        spots,
        ink,
        findings);
  }

  /**
   * A page's spot inks: as a library knows them, else as the job's own measurements do, else as its
   * alternate colours do.
   */
  private static Map<String, SpotInk> spots(
      PdfJob job,
      int page,
      PageSeparation separation,
      Map<String, SpotInk> library,
      List<Finding> findings)
      throws InputException {
    Map<String, SpotInk> spots = new HashMap<>();
    Set<String> unknown = new TreeSet<>();
    for (Colorant colorant : separation.colorants()) {
      if (colorant.isSpot()) {
        SpotInk known = library.get(colorant.name());
        if (known == null) {
          unknown.add(colorant.name());
          known = separation.alternates().get(colorant.name());
        }
        spots.put(colorant.name(), known);
      }
    }
    if (!unknown.isEmpty()) {
      SpotLibrary own = job.ownSpots(page, unknown);
      spots.putAll(own.inks());
      findings.addAll(own.findings());
    }
    return spots;
  }

  private static BandSink both(BandSink first, BandSink second) {
    return band -> {
      first.take(band);
      second.take(band);
    };
  }

  private static String result(FutureTask<String> digest) throws IOException {
    try {
      return digest.get();
    } catch (ExecutionException e) {
      throw new IOException("the job's digest can't be taken", e.getCause());
    } catch (InterruptedException e) {
      Thread.currentThread().interrupt();
      throw new InterruptedIOException("interrupted while taking the job's digest");
    }
  }
}
