package selvage.web;

import io.javalin.config.RoutesConfig;
import io.javalin.http.Context;
import io.javalin.http.NotFoundResponse;
import java.io.IOException;
import java.nio.file.Path;
import java.util.ArrayList;
import java.util.List;
import java.util.Map;
import java.util.Optional;
import java.util.stream.Collectors;
import selvage.finding.InputException;
import selvage.hotfolder.FolderSettings;
import selvage.hotfolder.SafeName;
import selvage.ledger.JobRecord;
import selvage.ledger.ScoreRecord;
import selvage.report.FiledScore;
import selvage.score.Mending;
import selvage.strip.Strip;
import selvage.strip.StripsFile;
import selvage.workflow.CorrectionFile;
import selvage.workflow.MendFiled;

/** A score: aims and readings side by side, checks, what happened to the print. */
final class ScorePages {
  private final Pages pages;
  private final ProofShelf shelf;

  private ScorePages(Pages pages, ProofShelf shelf) {
    this.pages = pages;
    this.shelf = shelf;
  }

  static void register(RoutesConfig routes, Pages pages, ProofShelf shelf) {
    ScorePages scores = new ScorePages(pages, shelf);
    routes.get("/scores/{scoreId}", scores::show);
    routes.get("/scores/{scoreId}/files/{name}", scores::download);
  }

  /** A score with the job and strips that it belongs to, as far as the ledger has them. */
  private record Found(
      ScoreRecord record, String json, Optional<JobRecord> job, Optional<String> strips) {}

  private Found find(Context context) {
    String id = LedgerIds.of(context, "scoreId", "score");
    ScoreRecord record = shelf.ledger().score(id).orElseThrow(() -> LedgerIds.unknown("score"));
    String json = shelf.ledger().scoreJson(id).orElseThrow(() -> LedgerIds.unknown("score"));
    Optional<JobRecord> job = record.jobId().flatMap(shelf.ledger()::job);
    return new Found(record, json, job, job.flatMap(one -> shelf.ledger().stripsJson(one.jobId())));
  }

  private void show(Context context) throws InputException {
    Found found = find(context);
    FiledScore score = FiledScore.parse(found.record().file(), found.json());
    Optional<StripsFile> file =
        found.strips().isEmpty()
            ? Optional.empty()
            : Optional.of(ProofShelf.parsed(found.job().orElseThrow(), found.strips().get()));
    PatchSort sort = PatchSort.of(context.queryParam("sort"));
    List<StripView> strips = new ArrayList<>();
    for (FiledScore.StripResult result : score.strips()) {
      strips.add(StripView.of(result, strip(file, result), sort));
    }
    Frame frame = pages.frame(context, "Score of " + name(found), "jobs");
    pages.show(
        context,
        "score.jte",
        frame,
        Map.of(
            "view",
            new ScoreView(
                found.record(),
                found.job(),
                score,
                strips,
                sort,
                facts(found, score, file, frame.figures()),
                report(found).isPresent(),
                correction(context, found, score))));
  }

  private static Optional<Strip> strip(Optional<StripsFile> file, FiledScore.StripResult result) {
    return file.stream()
        .flatMap(found -> found.strips().stream())
        .filter(strip -> strip.stripId().equals(result.stripId()))
        .findFirst();
  }

  private static String name(Found found) {
    return found.job().isPresent()
        ? found.job().get().file()
        : found.record().proof().orElse(found.record().file());
  }

  private static List<ScoreView.Fact> facts(
      Found found, FiledScore score, Optional<StripsFile> file, PageFigures figures) {
    FiledScore.StripResult first = score.strips().get(0);
    List<ScoreView.Fact> facts = new ArrayList<>();
    facts.add(new ScoreView.Fact("Measurement", found.record().file()));
    facts.add(new ScoreView.Fact("Taken", figures.time(found.record().received())));
    facts.add(new ScoreView.Fact("Evaluated against", first.tolerance()));
    facts.add(new ScoreView.Fact("Limits from", first.toleranceSource()));
    file.ifPresent(
        strips -> {
          facts.add(
              new ScoreView.Fact(
                  "Printing condition",
                  strips.conditionName()
                      + " ("
                      + strips.conditionSource().replace('-', ' ')
                      + ")"));
          strips.label().forEach(item -> facts.add(new ScoreView.Fact(item.name(), item.value())));
        });
    String prefix = "measured: ";
    facts.add(
        new ScoreView.Fact(
            "Instrument's setting",
            first.notes().stream()
                .filter(note -> note.startsWith(prefix))
                .map(note -> note.substring(prefix.length()))
                .collect(Collectors.joining("; "))));
    facts.add(
        new ScoreView.Fact(
            "Readings matched",
            first.alignment().how().replace('-', ' ')
                + ", confidence "
                + figures.number(first.alignment().confidence(), 2)));
    return facts;
  }

  private Optional<Path> report(Found found) {
    return found
        .job()
        .flatMap(
            job ->
                shelf
                    .files(job)
                    .flatMap(files -> files.score(job, found.record().scoreId(), ".pdf")));
  }

  /** Worked out only where it is asked for: it takes a second. */
  private Optional<CorrectionView> correction(Context context, Found found, FiledScore score)
      throws InputException {
    if (context.queryParam("correction") == null) {
      return Optional.empty();
    }
    try {
      return Optional.of(CorrectionView.of(mending(found, score)));
    } catch (InputException e) {
      return Optional.of(CorrectionView.impossible(e.getMessage()));
    }
  }

  private Mending mending(Found found, FiledScore score) throws InputException {
    if (found.strips().isEmpty()) {
      throw InputException.of(
          found.record().file(),
          "the ledger lacks the strips that were measured; file the score with them first");
    }
    JobRecord job = found.job().orElseThrow();
    Optional<FolderSettings> folder = shelf.folder(found.record().folder());
    Path beside =
        shelf
            .files(job)
            .flatMap(files -> files.strips(job))
            .orElse(Path.of(SafeName.of(job.strips().orElse("proof.strips.json"), "file")));
    boolean isOfFile =
        ProofShelf.parsed(job, found.strips().get()).conditionSource().equals("file");
    try {
      return new MendFiled(
              folder.map(FolderSettings::tolerance),
              isOfFile ? folder.flatMap(one -> one.stamping().condition()) : Optional.empty())
          .run(beside, found.strips().get(), score);
    } catch (InputException e) {
      String name = String.valueOf(beside.getFileName());
      throw InputException.of(
          found.record().file(), e.getMessage().replace(beside.toString(), name), e);
    }
  }

  private void download(Context context) throws InputException, IOException {
    Found found = find(context);
    String stem = stem(found);
    switch (context.pathParam("name")) {
      case "score.json" ->
          Downloads.text(context, found.json(), stem + ".json", "application/json");
      case "report.pdf" -> Downloads.file(context, report(found), stem + ".pdf", "application/pdf");
      case "correction.txt" -> {
        FiledScore score = FiledScore.parse(found.record().file(), found.json());
        Downloads.text(
            context,
            CorrectionFile.text(mending(found, score)),
            stem + ".correction.txt",
            "text/plain");
      }
      default -> throw new NotFoundResponse("A score has no file of this name.");
    }
  }

  private static String stem(Found found) {
    String name = SafeName.of(name(found), "file");
    int dot = name.lastIndexOf('.');
    return (dot > 0 ? name.substring(0, dot) : name)
        + ".score-"
        + found.record().scoreId().substring(0, 8);
  }
}
