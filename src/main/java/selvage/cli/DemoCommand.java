package selvage.cli;

import com.fasterxml.jackson.core.JsonGenerator;
import java.io.IOException;
import java.io.PrintWriter;
import java.nio.file.Path;
import java.time.Instant;
import java.time.temporal.ChronoUnit;
import java.util.List;
import java.util.Locale;
import java.util.concurrent.Callable;
import java.util.function.Consumer;
import picocli.CommandLine.Model.CommandSpec;
import selvage.cli.Declaration.Value;
import selvage.comparison.Comparison;
import selvage.comparison.Trend;
import selvage.finding.InputException;
import selvage.report.ComparisonText;
import selvage.report.ScoreText;
import selvage.score.Check;
import selvage.score.ProofScore;
import selvage.score.SetScore;
import selvage.score.Verdict;
import selvage.strip.PatchSet;
import selvage.strip.Strip;
import selvage.workflow.Demo;

/** {@code demo [DIR]}. */
final class DemoCommand implements Callable<Integer> {
  private final Declaration declaration =
      new Declaration(
          this,
          "Runs the whole loop on a built-in job of an invented workshop: survey, stamp, rehearse a"
              + " good and a bad proof, score both; then an invented season of proofs in a ledger,"
              + " compared. All measurements are SIMULATED.");

  final Value<Path> folder =
      declaration.parameter(
          0, Path.class, "DIR", "demo", "Where the files go. Default: ./${DEFAULT-VALUE}.");

  final OutputOptions output = new OutputOptions(declaration);

  CommandSpec spec() {
    return declaration.spec();
  }

  @Override
  public Integer call() throws InputException, IOException {
    Instant now = Instant.now().truncatedTo(ChronoUnit.SECONDS);
    Consumer<String> progress = output.stepProgress(declaration.err());
    Demo.Result result;
    try {
      result = new Demo(folder.get(), now, progress).run();
    } finally {
      progress.accept("");
    }
    PrintWriter out = declaration.out();
    output.writeJson(out, json -> writeTo(result, json));
    if (!output.quiet.get() && !output.isJsonOnStandardOutput()) {
      print(result, out);
      out.flush();
    }
    if (!result.isAsIntended()) {
      throw new IllegalStateException(
          "the good proof came out as "
              + result.good().verdict()
              + ", the bad one as "
              + result.bad().verdict());
    }
    return ExitStatus.DONE;
  }

  private static void print(Demo.Result result, PrintWriter out) {
    out.printf(
        Locale.ROOT,
        "The job: %s, %d pages, printing condition %s%n",
        result.job(),
        result.survey().pages().size(),
        result.survey().condition().name());
    for (Strip strip : result.stamped().strips().strips()) {
      out.printf(
          Locale.ROOT,
          "  page %d: %.0f %% of the inked area lies within ΔE00 3 of a job patch,"
              + " %.0f %% of a standard patch%n",
          strip.page(),
          strip.coverage().within3Percent(),
          strip.coverage().standardWithin3Percent());
    }
    out.println();
    print(result.good(), "well-kept device, a trifle off everywhere", out);
    print(result.bad(), "the same device with a wrong recipe for the spot Dune Red", out);
    if (isMissedByStandardStrips(result.bad())) {
      out.println("The standard strips alone would have let the bad proof through.");
      out.println();
    }
    print(result.comparison(), out);
    out.println("Look at:");
    out.printf("  %s   the stamped sheets%n", result.stamped().written().get(0));
    out.printf("  %s   the bad proof's report%n", result.bad().report());
    out.printf("  %s   the good proof's%n", result.good().report());
    out.printf("  %s   the bad proof's score as text, check by check%n", result.bad().text());
    out.printf("  %s   the colours of the job%n", result.surveyJson());
    out.printf("  %s   the season's plots%n", result.comparisonReport());
    out.printf("  compare --ledger %s   the season in full%n", result.season());
    out.println();
    out.println("The measurements are SIMULATED. " + ScoreText.CAUTION);
  }

  private static void print(Demo.Proof proof, String story, PrintWriter out) {
    out.printf(
        "The %s proof (%s): %s%n",
        proof.name(), story, proof.verdict().word().toUpperCase(Locale.ROOT));
    for (ProofScore score : proof.scores()) {
      out.printf(Locale.ROOT, "  page %d:", score.page());
      for (SetScore set : score.sets()) {
        out.printf(
            Locale.ROOT,
            "  %s strip %s (ΔE00 mean %.1f, max %.1f)",
            set.set().word(),
            set.verdict().word(),
            set.meanDe00(),
            set.maxDe00());
      }
      out.println();
      for (Check check : score.checks()) {
        if (check.verdict() == Verdict.FAIL) {
          out.printf(
              Locale.ROOT,
              "    %s strip, %s: %.1f, over the limit of %.1f%n",
              check.limit().set().word(),
              check.limit().name(),
              check.value(),
              check.limit().limit());
        }
      }
    }
    out.println();
  }

  private static void print(Comparison season, PrintWriter out) {
    out.println("An INVENTED season of an invented shop, " + season.pairs().size() + " proofs:");
    for (String sentence : ComparisonText.verdictSentences(season.table())) {
      out.println("  " + sentence);
    }
    for (Trend trend : season.trends()) {
      List<Trend.Alarm> alarms = Comparison.alarms(trend);
      if (!alarms.isEmpty()) {
        out.printf(
            "  %s: drift alarms %d, the first on %s, %s%n",
            ComparisonText.name(trend.source()),
            alarms.size(),
            ComparisonText.day(alarms.get(0).time()),
            alarms.get(0).word());
      }
    }
    out.println();
  }

  private static boolean isMissedByStandardStrips(Demo.Proof proof) {
    return proof.verdict() == Verdict.FAIL
        && proof.scores().stream()
            .flatMap(score -> score.sets().stream())
            .filter(set -> set.set() == PatchSet.STANDARD)
            .allMatch(set -> set.verdict() == Verdict.PASS);
  }

  private static void writeTo(Demo.Result result, JsonGenerator json) throws IOException {
    json.writeStartObject();
    json.writeNumberField("selvage", 1);
    json.writeStringField("job", result.job().toString());
    json.writeStringField("survey", result.surveyJson().toString());
    json.writeArrayFieldStart("written");
    for (Path file : result.stamped().written()) {
      json.writeString(file.toString());
    }
    json.writeEndArray();
    for (Demo.Proof proof : List.of(result.good(), result.bad())) {
      json.writeObjectFieldStart(proof.name());
      json.writeStringField("verdict", proof.verdict().word());
      json.writeStringField("measured", proof.measured().toString());
      json.writeStringField("score", proof.json().toString());
      json.writeEndObject();
    }
    json.writeStringField("season", result.season().toString());
    json.writeStringField("season_report", result.comparisonReport().toString());
    json.writeEndObject();
  }
}
