package selvage.web;

import io.javalin.http.Context;
import io.javalin.http.HttpStatus;
import java.util.Map;
import selvage.finding.InputException;

/** Where users sign in, and where at a machine without users somebody says who they are. */
final class SignInPage {
  static final String PATH = "/sign-in";
  private static final int MOST_NAME = 60;

  private final Pages pages;
  private final Guard guard;

  SignInPage(Pages pages, Guard guard) {
    this.pages = pages;
    this.guard = guard;
  }

  void show(Context context) throws InputException {
    show(context, "");
  }

  private void show(Context context, String complaint) throws InputException {
    pages.show(
        context,
        "signin.jte",
        pages.frame(context, guard.mustSignIn() ? "Sign in" : "Who is at work", ""),
        Map.of("complaint", complaint));
  }

  void signIn(Context context) throws InputException {
    String name = text(context.formParam("name"));
    if (!guard.mustSignIn()) {
      guard.enter(context, name.length() > MOST_NAME ? name.substring(0, MOST_NAME) : name);
      context.redirect("/");
      return;
    }
    if (guard.signIn(context, name, text(context.formParam("password")))) {
      context.redirect("/");
      return;
    }
    context.status(HttpStatus.UNAUTHORIZED);
    show(
        context,
        "Name and password do not belong together. Try again, or ask who runs this server.");
  }

  void signOut(Context context) {
    Guard.signOut(context);
    context.redirect(PATH);
  }

  private static String text(String given) {
    return given == null ? "" : given.strip();
  }
}
