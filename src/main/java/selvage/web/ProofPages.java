package selvage.web;

import io.javalin.config.RoutesConfig;
import io.javalin.http.Context;
import io.javalin.http.HttpStatus;
import io.javalin.http.NotFoundResponse;
import io.javalin.http.UploadedFile;
import java.io.IOException;
import java.io.InputStream;
import java.nio.file.Files;
import java.nio.file.Path;
import java.nio.file.StandardCopyOption;
import java.util.ArrayList;
import java.util.List;
import java.util.Locale;
import java.util.Map;
import java.util.Optional;
import java.util.regex.Matcher;
import java.util.regex.Pattern;
import selvage.finding.InputException;
import selvage.hotfolder.FolderSettings;
import selvage.hotfolder.ProofFiles;
import selvage.hotfolder.SafeName;
import selvage.ledger.JobRecord;
import selvage.report.FindingsJson;
import selvage.strip.Strip;
import selvage.strip.StripsFile;

/** A proof: what was stamped, its files and scores, and a place to hand in a measurement. */
final class ProofPages {
  private static final Pattern STRIP_TEXT = Pattern.compile("strip-p([0-9]{3,6})\\.txt");

  private final Pages pages;
  private final ProofShelf shelf;
  private final MeasurementDesk desk;
  private final Path uploads;

  private ProofPages(Pages pages, ProofShelf shelf, MeasurementDesk desk, Path uploads) {
    this.pages = pages;
    this.shelf = shelf;
    this.desk = desk;
    this.uploads = uploads;
  }

  /**
   * Adds the pages.
   *
   * @param desk where measurements are scored
   * @param uploads a folder for files that are handed in, while they are worked on
   */
  static void register(
      RoutesConfig routes, Pages pages, ProofShelf shelf, MeasurementDesk desk, Path uploads) {
    ProofPages proofs = new ProofPages(pages, shelf, desk, uploads);
    routes.get("/proofs/{jobId}", context -> proofs.show(context, proofs.job(context), ""));
    routes.get("/proofs/{jobId}/files/{name}", proofs::download);
    routes.post("/proofs/{jobId}/measurements", proofs::score);
  }

  private JobRecord job(Context context) {
    String id = LedgerIds.of(context, "jobId", "proof");
    return shelf.ledger().job(id).orElseThrow(() -> LedgerIds.unknown("proof"));
  }

  private void show(Context context, JobRecord job, String complaint) throws InputException {
    Optional<String> json = shelf.ledger().stripsJson(job.jobId());
    Optional<StripsFile> strips =
        json.isEmpty() ? Optional.empty() : Optional.of(ProofShelf.parsed(job, json.get()));
    ProofView view =
        new ProofView(
            job,
            strips,
            json.isEmpty() ? List.of() : FindingsJson.read(job.file(), json.get()),
            files(job, strips),
            shelf.ledger().summaries(List.of(job.jobId())),
            strips.isPresent() && shelf.folder(job).isPresent(),
            complaint);
    String title = (strips.isPresent() ? "Proof of " : "Refused: ") + job.file();
    pages.show(context, "proof.jte", pages.frame(context, title, "jobs"), Map.of("view", view));
  }

  private List<ProofView.ProofFile> files(JobRecord job, Optional<StripsFile> strips) {
    List<ProofView.ProofFile> list = new ArrayList<>();
    if (strips.isEmpty()) {
      return list;
    }
    Optional<ProofFiles> files = shelf.files(job);
    files.ifPresent(
        there ->
            list.add(
                new ProofView.ProofFile(
                    "Stamped proof, PDF", "proof.pdf", there.proof(job).isPresent())));
    list.add(new ProofView.ProofFile("Strips, JSON", "strips.json", true));
    files.ifPresent(
        there -> {
          for (Strip strip : strips.get().strips()) {
            String name = String.format(Locale.ROOT, "strip-p%03d.txt", strip.page());
            list.add(
                new ProofView.ProofFile(
                    "Strip of page " + strip.page() + ", CGATS",
                    name,
                    there.stripText(job, strip.page()).isPresent()));
          }
        });
    return list;
  }

  private void download(Context context) throws IOException {
    JobRecord job = job(context);
    String wanted = context.pathParam("name");
    String stem = stem(job);
    Matcher text = STRIP_TEXT.matcher(wanted);
    if (wanted.equals("proof.pdf")) {
      Downloads.file(
          context,
          shelf.files(job).flatMap(files -> files.proof(job)),
          stem + ".proof.pdf",
          "application/pdf");
    } else if (wanted.equals("strips.json")) {
      String json =
          shelf
              .ledger()
              .stripsJson(job.jobId())
              .orElseThrow(() -> new NotFoundResponse("This job was refused and has no strips."));
      Downloads.text(context, json, stem + ".proof.strips.json", "application/json");
    } else if (text.matches()) {
      int page = Integer.parseInt(text.group(1));
      Downloads.file(
          context,
          shelf.files(job).flatMap(files -> files.stripText(job, page)),
          stem + ".proof." + wanted,
          "text/plain; charset=utf-8");
    } else {
      throw new NotFoundResponse("A proof has no file of this name.");
    }
  }

  private static String stem(JobRecord job) {
    String name = SafeName.of(job.file(), "file");
    int dot = name.lastIndexOf('.');
    return dot > 0 ? name.substring(0, dot) : name;
  }

  private void score(Context context) throws InputException, IOException {
    JobRecord job = job(context);
    Optional<FolderSettings> folder = shelf.folder(job);
    UploadedFile file = context.uploadedFile("measurement");
    String complaint = "";
    if (folder.isEmpty() || job.proof().isEmpty()) {
      complaint =
          "A measurement can be handed in here only for proofs that a hot folder of this server"
              + " stamped. Score this one with the command score.";
    } else if (file == null || file.size() == 0) {
      complaint = "Choose a measurement file first: CGATS text or CxF3 with Lab, XYZ or spectra.";
    }
    if (!complaint.isEmpty()) {
      context.status(HttpStatus.UNPROCESSABLE_CONTENT);
      show(context, job, complaint);
      return;
    }
    try {
      String id = score(folder.get(), file, job);
      context.redirect("/scores/" + id, HttpStatus.SEE_OTHER);
    } catch (InputException e) {
      context.status(HttpStatus.UNPROCESSABLE_CONTENT);
      show(context, job, e.getMessage());
    } catch (IOException e) {
      context.status(HttpStatus.SERVICE_UNAVAILABLE);
      show(
          context,
          job,
          "The measurement can't be filed now: "
              + e.getMessage()
              + ". Nothing was lost; try again.");
    }
  }

  private String score(FolderSettings folder, UploadedFile file, JobRecord job)
      throws InputException, IOException {
    Path kept = Files.createTempFile(uploads, "measurement", ".part");
    try {
      try (InputStream in = file.content()) {
        Files.copy(in, kept, StandardCopyOption.REPLACE_EXISTING);
      }
      return desk.score(
          folder, SafeName.of(file.filename(), "file"), kept, Optional.of(job.jobId()));
    } finally {
      Files.deleteIfExists(kept);
    }
  }
}
