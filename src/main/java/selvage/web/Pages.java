package selvage.web;

import gg.jte.ContentType;
import gg.jte.TemplateEngine;
import gg.jte.output.StringOutput;
import io.javalin.http.Context;
import java.time.ZoneId;
import java.util.HashMap;
import java.util.Locale;
import java.util.Map;
import selvage.finding.InputException;

/** Renders pages from the templates that the build made into classes. */
final class Pages {
  private static final String NOTICE = "notice";

  private final TemplateEngine templates = TemplateEngine.createPrecompiled(ContentType.Html);
  private final Assets assets;
  private final Guard guard;

  Pages(Assets assets, Guard guard) {
    this.assets = assets;
    this.guard = guard;
  }

  /**
   * What a page needs beside its content.
   *
   * @param section jobs, comparison, or empty
   */
  Frame frame(Context context, String title, String section) throws InputException {
    String notice =
        context.req().getSession(false) == null ? null : context.consumeSessionAttribute(NOTICE);
    return new Frame(
        title,
        section,
        Guard.user(context),
        guard.mustSignIn(),
        guard.token(context),
        figures(context),
        assets,
        notice == null ? "" : notice);
  }

  /** The session's token, for forms in a part of a page. */
  String token(Context context) {
    return guard.token(context);
  }

  /** Numbers and times for whoever asks. */
  static PageFigures figures(Context context) {
    String wanted = context.header("Accept-Language");
    Locale locale = wanted == null || wanted.isBlank() ? Locale.UK : context.req().getLocale();
    return new PageFigures(locale, ZoneId.systemDefault());
  }

  /** A word that the next page shows. */
  static void notice(Context context, String text) {
    context.sessionAttribute(NOTICE, text);
  }

  /** Answers with a page. */
  void show(Context context, String template, Map<String, Object> model) {
    context.html(render(template, model));
  }

  /** A page with its frame. */
  void show(Context context, String template, Frame frame, Map<String, Object> model) {
    Map<String, Object> all = new HashMap<>(model);
    all.put("frame", frame);
    show(context, template, all);
  }

  String render(String template, Map<String, Object> model) {
    StringOutput out = new StringOutput(1 << 14);
    templates.render(template, model, out);
    return out.toString();
  }
}
