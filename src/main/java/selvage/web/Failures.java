package selvage.web;

import com.fasterxml.jackson.databind.ObjectMapper;
import com.fasterxml.jackson.databind.node.ObjectNode;
import io.javalin.config.RoutesConfig;
import io.javalin.http.Context;
import io.javalin.http.HttpResponseException;
import io.javalin.http.HttpStatus;
import java.util.Map;
import java.util.logging.Level;
import java.util.logging.Logger;
import selvage.finding.InputException;
import selvage.ledger.LedgerException;

/** Answers where something is amiss: a page that says what and what to do, or JSON to the API. */
final class Failures {
  private static final Logger LOG = Logger.getLogger(Failures.class.getName());

  private final Pages pages;

  private Failures(Pages pages) {
    this.pages = pages;
  }

  static void register(RoutesConfig routes, Pages pages) {
    Failures failures = new Failures(pages);
    routes.exception(
        HttpResponseException.class,
        (e, context) -> failures.answer(context, e.getStatus(), e.getMessage()));
    routes.exception(
        InputException.class,
        (e, context) ->
            failures.answer(context, HttpStatus.UNPROCESSABLE_CONTENT.getCode(), e.getMessage()));
    routes.exception(
        LedgerException.class,
        (e, context) ->
            failures.answer(
                context,
                HttpStatus.SERVICE_UNAVAILABLE.getCode(),
                "The ledger can't be used now: "
                    + e.getMessage()
                    + ". Nothing is lost; try again."));
    routes.exception(
        Exception.class,
        (e, context) -> {
          if (isTooLarge(e)) {
            failures.answer(
                context,
                HttpStatus.CONTENT_TOO_LARGE.getCode(),
                "The file is larger than this server takes (option --max-upload).");
            return;
          }
          LOG.log(Level.SEVERE, context.method() + " " + context.path(), e);
          failures.answer(
              context,
              HttpStatus.INTERNAL_SERVER_ERROR.getCode(),
              "A fault in the program. It is in the server's log; nothing was changed half.");
        });
    routes.error(404, context -> failures.missing(context));
  }

  private static boolean isTooLarge(Throwable e) {
    for (Throwable cause = e; cause != null; cause = cause.getCause()) {
      String message = String.valueOf(cause.getMessage());
      if (message.matches("max (file size|length).* exceeded.*")) {
        return true;
      }
    }
    return false;
  }

  private void missing(Context context) {
    if (context.result() == null || context.result().isEmpty() || isPlain(context)) {
      answer(
          context,
          404,
          "There is nothing at this address. It may have been removed, or the address is wrong.");
    }
  }

  private static boolean isPlain(Context context) {
    String type = context.res().getContentType();
    return type == null || type.startsWith("text/plain");
  }

  private void answer(Context context, int status, String text) {
    context.status(status);
    if (Guard.isApi(context)) {
      ObjectNode error = new ObjectMapper().createObjectNode();
      error.put("status", status);
      error.put("error", text);
      context.contentType("application/json").result(error.toString());
      return;
    }
    try {
      pages.show(
          context,
          "failure.jte",
          pages.frame(context, title(status), ""),
          Map.of("status", status, "text", String.valueOf(text)));
    } catch (InputException e) {
      context.contentType("text/plain").result(text + "\n" + e.getMessage());
    }
  }

  private static String title(int status) {
    return switch (status) {
      case 401 -> "Sign in first";
      case 403 -> "Not allowed";
      case 404 -> "Nothing here";
      case 405 -> "Not that way";
      case 413 -> "Too large";
      case 422 -> "Can't be used";
      case 429 -> "Too many tries";
      case 503 -> "Not now";
      default -> "Something is amiss";
    };
  }
}
