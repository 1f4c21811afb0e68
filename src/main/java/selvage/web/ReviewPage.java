package selvage.web;

import com.fasterxml.jackson.databind.ObjectMapper;
import com.fasterxml.jackson.databind.node.ArrayNode;
import com.fasterxml.jackson.databind.node.ObjectNode;
import io.javalin.config.RoutesConfig;
import io.javalin.http.ConflictResponse;
import io.javalin.http.Context;
import io.javalin.http.NotFoundResponse;
import java.io.ByteArrayOutputStream;
import java.io.IOException;
import java.util.HashMap;
import java.util.LinkedHashSet;
import java.util.List;
import java.util.Map;
import java.util.Optional;
import java.util.Set;
import java.util.concurrent.CompletionException;
import java.util.zip.Deflater;
import java.util.zip.GZIPOutputStream;
import selvage.finding.InputException;
import selvage.hotfolder.DeskWork;
import selvage.ink.Colorant;
import selvage.ink.InkMixture;
import selvage.report.InkText;
import selvage.report.StripSvg;
import selvage.review.Desk;
import selvage.review.MixtureKey;
import selvage.review.OpenPage;
import selvage.review.PageChoice;
import selvage.review.Review;
import selvage.review.SetChanges;
import selvage.strip.JobSet;
import selvage.workflow.StripPreview;

/** The operator's review: the page, where each colour lies on it, the set, and its approval. */
final class ReviewPage {
  private static final int MOST_PAGE = 100_000;

  private final Pages pages;
  private final Desk desk;

  private ReviewPage(Pages pages, Desk desk) {
    this.pages = pages;
    this.desk = desk;
  }

  static void register(RoutesConfig routes, Pages pages, Desk desk) {
    ReviewPage page = new ReviewPage(pages, desk);
    String one = "/review/{id}/pages/{page}";
    routes.get("/review/{id}", page::show);
    routes.get(one, page::show);
    routes.get(one + "/picture.png", page::picture);
    routes.get(one + "/map", page::map);
    routes.get(one + "/spot", page::spot);
    routes.get(one + "/strip", page::strip);
    routes.get(one + "/history", page::history);
    routes.post(one + "/set", page::change);
    routes.post("/review/{id}/approve", page::approve);
    routes.post("/review/{id}/discard", page::discard);
  }

  private Review review(Context context) {
    return desk.review(context.pathParam("id")).orElseThrow(NotFoundResponse::new);
  }

  private static int number(Context context) {
    String text = context.pathParamMap().getOrDefault("page", "1");
    return parsed(text)
        .filter(page -> page >= 1 && page <= MOST_PAGE)
        .orElseThrow(NotFoundResponse::new);
  }

  private static Optional<Integer> parsed(String text) {
    try {
      return text == null ? Optional.empty() : Optional.of(Integer.valueOf(text));
    } catch (NumberFormatException e) {
      return Optional.empty();
    }
  }

  /** The page that is asked for, once it is opened. */
  private OpenPage open(Context context, Review review) throws InputException, IOException {
    try {
      return desk.page(review, number(context)).join();
    } catch (CompletionException e) {
      Throwable cause = e.getCause() == null ? e : e.getCause();
      if (cause instanceof InputException bad) {
        throw bad;
      }
      if (cause instanceof OutOfMemoryError || cause instanceof StackOverflowError) {
        throw InputException.of(
            review.name(), "needs more memory than this server has; start it with a larger -Xmx");
      }
      throw new IOException(cause.getMessage(), cause);
    }
  }

  private void show(Context context) throws InputException, IOException {
    Review review = review(context);
    Optional<Integer> wanted = parsed(context.queryParam("page"));
    if (wanted.isPresent() && wanted.get() > 0) {
      context.redirect("/review/" + review.id() + "/pages/" + wanted.get());
      return;
    }
    OpenPage page;
    try {
      page = open(context, review);
    } catch (InputException e) {
      if (number(context) > 1) {
        throw e;
      }
      context.status(422);
      pages.show(
          context,
          "unusable.jte",
          pages.frame(context, review.name(), "jobs"),
          Map.of("id", review.id(), "why", String.valueOf(e.getMessage())));
      return;
    }
    Frame frame = pages.frame(context, review.name(), "jobs");
    PageFigures figures = frame.figures();
    Map<String, Object> model = new HashMap<>();
    model.put("review", review);
    model.put("page", page);
    model.put("plates", ReviewModel.plates(page));
    model.put("set", page.isInked() ? view(review, page, figures) : null);
    model.put("steps", ReviewModel.steps(review, figures));
    model.put(
        "size",
        figures.number(page.widthMm(), 0) + " × " + figures.number(page.heightMm(), 0) + " mm");
    model.put("findings", page.survey().findings().stream().map(one -> one.text()).toList());
    pages.show(context, "review.jte", frame, model);
  }

  private ReviewModel.SetView view(Review review, OpenPage page, PageFigures figures) {
    return ReviewModel.set(
        review, page, SetChanges.choice(review, page), desk.set(review, page), figures);
  }

  private void picture(Context context) throws InputException, IOException {
    Review review = review(context);
    OpenPage page = open(context, review);
    Set<String> plates = new LinkedHashSet<>();
    List<String> wanted = context.queryParams("plate");
    for (Colorant colorant : page.colorants()) {
      if (wanted.isEmpty() || wanted.contains(colorant.name())) {
        plates.add(colorant.name());
      }
    }
    context.header("Cache-Control", "private, max-age=3600");
    byte[] picture = page.picture(plates, context.queryParam("fine") != null);
    context.disableCompression().contentType("image/png").result(picture);
    desk.openBehind(review, page);
  }

  private void map(Context context) throws InputException, IOException {
    Review review = review(context);
    OpenPage page = open(context, review);
    requireInk(page);
    OpenPage.Nearness map = page.nearness(desk.set(review, page));
    context.header("X-Map-Columns", String.valueOf(map.columns()));
    context.header("X-Map-Lines", String.valueOf(map.lines()));
    context.header("X-Map-Samples", String.valueOf(map.samples()));
    context.header("Content-Encoding", "gzip");
    context.disableCompression();
    context.contentType("application/octet-stream").result(zipped(map.bytes()));
  }

  private static void requireInk(OpenPage page) {
    if (!page.isInked()) {
      throw new NotFoundResponse();
    }
  }

  private static byte[] zipped(byte[] bytes) throws IOException {
    ByteArrayOutputStream out = new ByteArrayOutputStream(1 << 16);
    try (GZIPOutputStream zip =
        new GZIPOutputStream(out, 1 << 14) {
          {
            def.setLevel(Deflater.BEST_SPEED);
          }
        }) {
      zip.write(bytes);
    }
    return out.toByteArray();
  }

  private void spot(Context context) throws InputException, IOException {
    Review review = review(context);
    OpenPage page = open(context, review);
    int x = parsed(context.queryParam("x")).orElseThrow(NotFoundResponse::new);
    int y = parsed(context.queryParam("y")).orElseThrow(NotFoundResponse::new);
    JobSet set = page.isInked() ? desk.set(review, page) : page.automatic();
    OpenPage.Spot spot = page.at(x, y, set).orElseThrow(NotFoundResponse::new);
    PageFigures figures = Pages.figures(context);
    ObjectNode json = new ObjectMapper().createObjectNode();
    ArrayNode inks = json.putArray("inks");
    for (Colorant colorant : page.colorants()) {
      inks.addObject()
          .put("name", colorant.name())
          .put("percent", figures.number(spot.mixture().percent(colorant), 1));
    }
    json.put("build", InkText.of(spot.mixture()));
    json.put("key", MixtureKey.of(spot.mixture()));
    json.put("color", ReviewModel.hex(spot.aim()));
    json.put("lab", ReviewModel.lab(spot.aim(), figures));
    json.put("total", figures.number(spot.mixture().totalPercent(), 0));
    json.put("area", figures.number(spot.areaPercent(), spot.areaPercent() < 0.1 ? 3 : 1));
    if (spot.patch() >= 0) {
      json.put("nearest", spot.patch() + 1);
      json.put("de00", figures.number(spot.de00(), 1));
      json.put("isPatch", set.patches().get(spot.patch()).mixture().equals(spot.mixture()));
    }
    context.contentType("application/json").result(json.toString());
  }

  private void strip(Context context) throws InputException, IOException {
    Review review = review(context);
    OpenPage page = open(context, review);
    requireInk(page);
    StripPreview preview = desk.strip(review, page);
    Map<String, Object> model = new HashMap<>();
    PageFigures figures = Pages.figures(context);
    model.put("svg", StripSvg.of(preview.layout()));
    model.put("edge", preview.place().edge());
    model.put("own", preview.place().ownPage());
    model.put(
        "size",
        figures.number(preview.layout().widthMm(), 0)
            + " × "
            + figures.number(preview.layout().heightMm(), 0)
            + " mm");
    model.put("id", preview.strip().stripId());
    model.put("findings", preview.findings().stream().map(one -> one.text()).toList());
    pages.show(context, "strip.jte", model);
  }

  private void history(Context context) {
    Review review = review(context);
    pages.show(
        context, "history.jte", Map.of("steps", ReviewModel.steps(review, Pages.figures(context))));
  }

  private void change(Context context) throws InputException, IOException {
    Review review = review(context);
    OpenPage page = open(context, review);
    requireInk(page);
    int seen = parsed(context.formParam("seen")).orElse(-1);
    SetChanges.Editing at = new SetChanges.Editing(review, page, seen, Guard.actor(context));
    try {
      apply(context, at);
    } catch (Review.StaleException e) {
      throw new ConflictResponse(e.getMessage());
    }
    if (context.header("HX-Request") == null) {
      context.redirect("/review/" + review.id() + "/pages/" + page.survey().page() + "#set");
      return;
    }
    context.header("HX-Trigger-After-Settle", "set-changed");
    answerSet(context, review, page);
  }

  private void answerSet(Context context, Review review, OpenPage page) {
    PageFigures figures = Pages.figures(context);
    pages.show(
        context,
        "set.jte",
        Map.of("set", view(review, page, figures), "csrf", pages.token(context)));
  }

  private void apply(Context context, SetChanges.Editing at)
      throws InputException, IOException, Review.StaleException {
    String what = String.valueOf(context.formParam("do"));
    switch (what) {
      case "drop" -> desk.changes().drop(at, mixture(context));
      case "add" -> desk.changes().add(at, mixture(context));
      case "keep" -> desk.changes().keep(at, mixture(context), true);
      case "free" -> desk.changes().keep(at, mixture(context), false);
      case "up" -> move(context, at, -1);
      case "down" -> move(context, at, 1);
      case "move" ->
          desk.changes().move(at, mixture(context), parsed(context.formParam("to")).orElse(1) - 1);
      case "count" -> desk.changes().count(at, count(context.formParam("count")));
      case "reset" -> desk.changes().reset(at);
      case "undo" -> desk.changes().undo(at);
      case "redo" -> desk.changes().redo(at);
      default ->
          throw InputException.of(
              "the form", "expected a change of the set, found \"" + what + "\"");
    }
  }

  private void move(Context context, SetChanges.Editing at, int by)
      throws InputException, IOException, Review.StaleException {
    InkMixture mixture = mixture(context);
    PageChoice choice = SetChanges.choice(at.review(), at.page());
    desk.changes().move(at, mixture, choice.indexOf(mixture) + by);
  }

  private static int count(String text) throws InputException {
    if ("auto".equals(text) || text == null || text.isBlank()) {
      return JobSet.AUTO;
    }
    return parsed(text.strip())
        .filter(count -> count >= 1)
        .orElseThrow(
            () ->
                InputException.of(
                    "the number of patches",
                    "expected 1 to " + JobSet.MOST_PATCHES + ", found \"" + text + "\""));
  }

  private static InkMixture mixture(Context context) throws InputException {
    String key = context.formParam("inks");
    try {
      return MixtureKey.parse(key == null ? "" : key);
    } catch (IllegalArgumentException e) {
      throw InputException.of("the form", "expected a mixture, found none: " + e.getMessage(), e);
    }
  }

  private void approve(Context context) throws InputException, IOException {
    Review review = review(context);
    int seen = parsed(context.formParam("seen")).orElse(-1);
    try {
      DeskWork.Done done = desk.approve(review, seen, Guard.actor(context));
      Pages.notice(context, "Stamped " + done.text() + ".");
      context.redirect("/proofs/" + done.id());
    } catch (Review.StaleException e) {
      throw new ConflictResponse(e.getMessage());
    }
  }

  private void discard(Context context) throws IOException {
    Review review = review(context);
    desk.discard(review);
    Pages.notice(context, review.name() + " was taken off the desk.");
    context.redirect("/");
  }
}
