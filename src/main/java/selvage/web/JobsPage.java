package selvage.web;

import io.javalin.config.RoutesConfig;
import io.javalin.http.Context;
import io.javalin.http.NotFoundResponse;
import io.javalin.http.UploadedFile;
import java.io.IOException;
import java.io.InputStream;
import java.util.ArrayList;
import java.util.HashMap;
import java.util.List;
import java.util.Map;
import selvage.finding.InputException;
import selvage.ledger.JobRecord;
import selvage.ledger.Ledger;
import selvage.review.Desk;
import selvage.review.Review;

/** The first page: what lies on the desk, what was stamped, and where jobs are taken in. */
public final class JobsPage {
  private static final int MOST_WAITING = 50;

  private final Pages pages;
  private final Desk desk;
  private final Ledger ledger;

  private JobsPage(Pages pages, Desk desk, Ledger ledger) {
    this.pages = pages;
    this.desk = desk;
    this.ledger = ledger;
  }

  static void register(RoutesConfig routes, Pages pages, Desk desk, Ledger ledger) {
    JobsPage page = new JobsPage(pages, desk, ledger);
    routes.get("/", page::show);
    routes.post("/jobs", page::take);
    routes.post("/proofs/{id}/review", page::takeAgain);
  }

  /**
   * A job on the desk.
   *
   * @param state for people
   */
  public record Row(
      String id,
      String name,
      String folder,
      String received,
      String iso,
      String by,
      String state) {}

  private void show(Context context) throws InputException, IOException {
    PageFigures figures = Pages.figures(context);
    List<Row> open = new ArrayList<>();
    for (Review review : desk.reviews()) {
      if (review.approval().isEmpty()) {
        open.add(
            new Row(
                review.id(),
                review.name(),
                review.folder(),
                figures.time(review.received()),
                review.received().toString(),
                review.changes().get(0).who(),
                review.version() > 1 ? "being changed" : "as chosen by itself"));
      }
    }
    Map<String, Object> model = new HashMap<>();
    model.put("open", open);
    model.put("proofs", new ProofList(ledger).model(context));
    model.put("waiting", desk.waiting(MOST_WAITING));
    model.put("folders", desk.folders().stream().map(one -> one.name()).toList());
    pages.show(context, "jobs.jte", pages.frame(context, "Jobs", "jobs"), model);
  }

  private void takeAgain(Context context) throws InputException, IOException {
    JobRecord job = ledger.job(context.pathParam("id")).orElseThrow(NotFoundResponse::new);
    context.redirect("/review/" + desk.takeAgain(job, Guard.actor(context)).id());
  }

  private void take(Context context) throws InputException, IOException {
    UploadedFile file = context.uploadedFile("job");
    if (file == null || file.filename().isBlank()) {
      throw InputException.of("the form", "expected a job's file, found none; choose one first");
    }
    String folder = context.formParam("folder");
    try (InputStream bytes = file.content()) {
      Review review =
          desk.take(file.filename(), folder == null ? "" : folder, Guard.actor(context), bytes);
      context.redirect("/review/" + review.id());
    }
  }
}
