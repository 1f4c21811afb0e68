package selvage.workflow;

import com.fasterxml.jackson.core.JsonEncoding;
import com.fasterxml.jackson.core.JsonFactory;
import com.fasterxml.jackson.core.JsonGenerator;
import java.io.FileNotFoundException;
import java.io.IOException;
import java.io.InputStream;
import java.nio.file.Files;
import java.nio.file.Path;
import java.time.Instant;
import java.util.ArrayList;
import java.util.List;
import java.util.Map;
import java.util.Objects;
import java.util.Optional;
import java.util.function.Consumer;
import selvage.comparison.Comparison;
import selvage.finding.InputException;
import selvage.measurement.Drift;
import selvage.measurement.LabShift;
import selvage.measurement.StripChoice;
import selvage.report.ScoreJson;
import selvage.report.ScoreText;
import selvage.report.SurveyJson;
import selvage.score.ProofScore;
import selvage.score.Verdict;
import selvage.separation.ContentLimits;
import selvage.strip.StripLabel;
import selvage.survey.AreaKind;
import selvage.survey.JobSurvey;

/**
 * The whole loop on the invented job that is built in: survey, stamp, rehearse a good and a bad
 * proof, score both; then an invented season of proofs, scored and compared. Everything lies in one
 * folder afterwards.
 */
public final class Demo {
  /** A well-kept device: a trifle off everywhere. */
  private static final Drift GOOD =
      new Drift(
          Map.of("Cyan", 0.6, "Magenta", -0.5, "Yellow", 0.4, "Black", 0.5),
          Map.of("Cyan", -0.8, "Magenta", 0.7),
          new LabShift(-0.2, 0.1, 0.3),
          Map.of(),
          new LabShift(0.3, -0.5, 0.4),
          0.25,
          1);

  /** The same device with a wrong recipe for one spot ink; its process inks are as before. */
  private static final Drift BAD =
      new Drift(
          GOOD.tone(),
          GOOD.density(),
          GOOD.paper(),
          Map.of("Dune Red", new LabShift(3.0, -7.5, -6.5)),
          GOOD.allSpots(),
          GOOD.noise(),
          2);

  private static final int COLORS = 64;

  /**
   * A rehearsed proof with its scores.
   *
   * @param name the stem of its files
   * @param measured the invented measurement
   * @param text its score for people
   * @param json its score for programs
   * @param report its score for the customer and the file
   * @param scores one a stamped page
   */
  public record Proof(
      String name, Path measured, Path text, Path json, Path report, List<ProofScore> scores) {
    public Proof {
      scores = List.copyOf(scores);
    }

    /** The verdict on all pages together. */
    public Verdict verdict() {
      return ScoreText.verdict(scores);
    }
  }

  /**
   * What came of it.
   *
   * @param job the copy of the job
   * @param survey of the job
   * @param surveyJson where the survey was written
   * @param stamped the stamped proof
   * @param good the proof that ought to pass
   * @param bad the proof that ought to fail
   * @param season the ledger of an invented season
   * @param comparison of the season's scores
   * @param comparisonReport its plots
   */
  public record Result(
      Path job,
      JobSurvey survey,
      Path surveyJson,
      StampJob.Result stamped,
      Proof good,
      Proof bad,
      Path season,
      Comparison comparison,
      Path comparisonReport) {
    public Result {
      Objects.requireNonNull(survey, "survey");
      Objects.requireNonNull(stamped, "stamped");
    }

    /** Whether the good proof passed and the bad one failed. */
    public boolean isAsIntended() {
      return good.verdict() == Verdict.PASS && bad.verdict() == Verdict.FAIL;
    }
  }

  private final Path folder;
  private final Instant time;
  private final Consumer<String> progress;

  /**
   * Prepares the demo.
   *
   * @param folder where its files go; made where it is missing
   * @param time stamped on the label
   * @param progress is told each step before it is taken
   */
  public Demo(Path folder, Instant time, Consumer<String> progress) {
    this.folder = Objects.requireNonNull(folder, "folder");
    this.time = Objects.requireNonNull(time, "time");
    this.progress = Objects.requireNonNull(progress, "progress");
  }

  /**
   * Runs all steps; files of an earlier run are replaced.
   *
   * @throws InputException where the folder can't be used
   */
  public Result run() throws InputException, IOException {
    makeFolder();
    Path job = folder.resolve("demo-job.pdf");
    Path spots = folder.resolve("demo-spots.txt");
    copy("demo-job.pdf", job);
    copy("demo-spots.txt", spots);

    progress.accept("survey");
    JobSurvey survey =
        new SurveyJob(
                new SurveyJob.Request(
                    job,
                    null,
                    null,
                    150,
                    AreaKind.TRIM,
                    List.of(spots),
                    null,
                    null,
                    ContentLimits.USUAL))
            .run();
    Path surveyJson = folder.resolve("survey.json");
    writeJson(surveyJson, json -> SurveyJson.write(survey, COLORS, json));

    progress.accept("stamp");
    StampJob.Result stamped =
        StampJob.run(job, survey, folder.resolve("proof.pdf"), stampOptions());
    Path strips = folder.resolve("proof.strips.json");
    Proof good = proof("good", strips, GOOD);
    Proof bad = proof("bad", strips, BAD);

    progress.accept("an invented season");
    Path season = folder.resolve("season.db");
    Comparison comparison = new DemoSeason(strips).run(season);
    Path comparisonReport = folder.resolve("season-comparison.pdf");
    CompareProofs.write(comparison, Optional.empty(), Optional.of(comparisonReport), time);
    return new Result(
        job, survey, surveyJson, stamped, good, bad, season, comparison, comparisonReport);
  }

  private void makeFolder() throws InputException {
    try {
      Files.createDirectories(folder);
    } catch (IOException e) {
      throw InputException.of(
          folder.toString(), "expected a folder that can be made; name another place", e);
    }
  }

  private void copy(String name, Path target) throws InputException, IOException {
    try (InputStream in = Demo.class.getResourceAsStream("/demo/" + name);
        StagedFiles files = new StagedFiles()) {
      if (in == null) {
        throw new FileNotFoundException("the program lacks its own /demo/" + name);
      }
      files.add(target, in::transferTo);
      files.publish();
    }
  }

  private StampOptions stampOptions() {
    return new StampOptions(
        StampOptions.DEFAULT_PATCHES,
        "full",
        "handheld-spot",
        Optional.empty(),
        false,
        Optional.empty(),
        List.of(
            new StripLabel.Item("Evaluated as", "rehearsal of a contract proof"),
            new StripLabel.Item("Proofing system", "virtual device"),
            new StripLabel.Item("Ink set", "virtual"),
            new StripLabel.Item("Substrate", "virtual, white"),
            new StripLabel.Item("Simulation profile", "none")),
        time);
  }

  private Proof proof(String name, Path strips, Drift drift) throws InputException, IOException {
    progress.accept("rehearse and score the " + name + " proof");
    Path measured = folder.resolve(name + "-measured.txt");
    new RehearseProof(StripChoice.ANY, Optional.empty(), drift).run(strips, measured);
    List<ProofScore> scores = new ArrayList<>(ScoreProof.USUAL.run(strips, List.of(measured)));
    Path text = folder.resolve(name + "-score.txt");
    Path json = folder.resolve(name + "-score.json");
    try (StagedFiles files = new StagedFiles()) {
      files.add(text, ScoreText.of(scores));
      files.publish();
    }
    writeJson(json, out -> ScoreJson.write(scores, out));
    Path report = folder.resolve(name + "-report.pdf");
    new WriteReports(List.of(report), List.of(), time)
        .run(strips, List.of(measured), new ScoreProof.Outcome(scores, Optional.empty()));
    return new Proof(name, measured, text, json, report, scores);
  }

  private interface JsonContent {
    void writeTo(JsonGenerator json) throws IOException;
  }

  private static void writeJson(Path target, JsonContent content)
      throws InputException, IOException {
    try (StagedFiles files = new StagedFiles()) {
      files.add(
          target,
          out -> {
            JsonGenerator json = new JsonFactory().createGenerator(out, JsonEncoding.UTF8);
            json.useDefaultPrettyPrinter();
            content.writeTo(json);
            json.flush();
          });
      files.publish();
    }
  }
}
