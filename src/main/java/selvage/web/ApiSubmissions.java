package selvage.web;

import com.fasterxml.jackson.databind.ObjectMapper;
import com.fasterxml.jackson.databind.node.ObjectNode;
import io.javalin.config.RoutesConfig;
import io.javalin.http.ContentTooLargeResponse;
import io.javalin.http.Context;
import io.javalin.http.HttpStatus;
import io.javalin.http.NotFoundResponse;
import io.javalin.http.UploadedFile;
import java.io.IOException;
import java.io.InputStream;
import java.io.OutputStream;
import java.nio.file.Files;
import java.nio.file.Path;
import java.util.List;
import java.util.Optional;
import selvage.finding.InputException;
import selvage.hotfolder.FolderSettings;
import selvage.hotfolder.HandedIn;
import selvage.hotfolder.SafeName;
import selvage.ledger.JobRecord;
import selvage.review.Desk;
import selvage.review.Review;

/**
 * What other programs hand in: jobs for a hot folder or the desk, and measurements. The body is the
 * file itself, or a form with the file in it.
 */
final class ApiSubmissions {
  private static final ObjectMapper MAPPER = new ObjectMapper();

  private final ProofShelf shelf;
  private final MeasurementDesk scoring;
  private final Desk desk;
  private final WebSettings settings;

  private ApiSubmissions(
      ProofShelf shelf, MeasurementDesk scoring, Desk desk, WebSettings settings) {
    this.shelf = shelf;
    this.scoring = scoring;
    this.desk = desk;
    this.settings = settings;
  }

  static void register(
      RoutesConfig routes,
      ProofShelf shelf,
      MeasurementDesk scoring,
      Desk desk,
      WebSettings settings) {
    ApiSubmissions api = new ApiSubmissions(shelf, scoring, desk, settings);
    routes.post(ApiPages.ROOT + "/jobs", api::job);
    routes.post(ApiPages.ROOT + "/measurements", api::measurement);
  }

  /** A file that was handed in, in the uploads' folder. */
  private record Received(Path file, String name) {}

  /** What is done with a file that was handed in. */
  private interface Work {
    void on(Received received) throws InputException, IOException;
  }

  /** Keeps what was handed in while it is worked on. */
  private void received(Context context, Work work) throws InputException, IOException {
    Path kept = Files.createTempFile(settings.uploads(), "handed-in", ".part");
    try {
      String type = Optional.ofNullable(context.contentType()).orElse("");
      String name = ApiWishes.text(context, "name").orElse("");
      if (type.startsWith("multipart/form-data")) {
        UploadedFile file = onlyFile(context);
        try (InputStream in = file.content()) {
          copy(in, kept);
        }
        name = name.isEmpty() ? file.filename() : name;
      } else {
        if (name.isEmpty()) {
          throw InputException.of("name", "expected the file's name in the address, found none");
        }
        copy(context.req().getInputStream(), kept);
      }
      if (Files.size(kept) == 0) {
        throw InputException.of(
            SafeName.of(name, "file"), "expected a file with something in it, found an empty one");
      }
      work.on(new Received(kept, SafeName.of(name, "file")));
    } finally {
      Files.deleteIfExists(kept);
    }
  }

  private static UploadedFile onlyFile(Context context) throws InputException {
    List<UploadedFile> files = context.uploadedFiles();
    if (files.size() != 1) {
      throw InputException.of("the form", "expected one file, found " + files.size());
    }
    return files.get(0);
  }

  private void copy(InputStream in, Path to) throws IOException {
    byte[] buffer = new byte[1 << 16];
    long written = 0;
    try (OutputStream out = Files.newOutputStream(to)) {
      for (int read = in.read(buffer); read >= 0; read = in.read(buffer)) {
        written += read;
        if (written > settings.mostUploadBytes()) {
          throw new ContentTooLargeResponse(
              "The file is larger than this server takes (option --max-upload).");
        }
        out.write(buffer, 0, read);
      }
    }
  }

  private FolderSettings folder(Context context) throws InputException {
    Optional<String> name = ApiWishes.text(context, "folder");
    if (name.isEmpty()) {
      return shelf.folders().get(0);
    }
    Optional<FolderSettings> folder = shelf.folder(name.get());
    if (folder.isEmpty()) {
      throw ApiWishes.wrong(
          "folder", "one of " + String.join(", ", settings.folderNames()), name.get());
    }
    return folder.get();
  }

  private void job(Context context) throws InputException, IOException {
    FolderSettings folder = folder(context);
    boolean isForReview = "true".equals(context.queryParam("review"));
    received(
        context,
        file -> {
          ObjectNode answer = MAPPER.createObjectNode();
          if (isForReview) {
            try (InputStream bytes = Files.newInputStream(file.file())) {
              Review review = desk.take(file.name(), folder.name(), Guard.actor(context), bytes);
              answer.put("review_id", review.id()).put("review", "/review/" + review.id());
            }
            answer.put("file", file.name());
          } else {
            requireSeen(file.name());
            answer.put("file", HandedIn.put(folder, file.name(), file.file()));
          }
          answer.put("folder", folder.name());
          context.status(HttpStatus.ACCEPTED);
          ApiPages.json(context, answer.toString());
        });
  }

  /** The watcher leaves files of such names alone: to it they are copies under way. */
  private static void requireSeen(String name) throws InputException {
    if (!HandedIn.isSeen(name)) {
      throw InputException.of(
          name,
          "expected the name of a whole job, such as flyer.pdf; hot folders leave this alone");
    }
  }

  private void measurement(Context context) throws InputException, IOException {
    Optional<String> wanted = ApiWishes.text(context, "job");
    if (wanted.isPresent() && !LedgerIds.isOne(wanted.get())) {
      throw ApiWishes.wrong("job", "an id of 32 hexadecimal digits in lower case", wanted.get());
    }
    Optional<JobRecord> job = wanted.flatMap(id -> shelf.ledger().job(id));
    if (wanted.isPresent() && job.isEmpty()) {
      throw new NotFoundResponse("The ledger has no job of this id.");
    }
    FolderSettings folder =
        context.queryParam("folder") == null && job.isPresent()
            ? shelf.folder(job.get()).orElse(shelf.folders().get(0))
            : folder(context);
    received(
        context,
        file -> {
          String id = scoring.score(folder, file.name(), file.file(), wanted);
          context.status(HttpStatus.CREATED);
          context.header("Location", ApiPages.ROOT + "/scores/" + id);
          ApiPages.json(context, shelf.ledger().scoreJson(id).orElseThrow());
        });
  }
}
