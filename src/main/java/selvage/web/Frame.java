package selvage.web;

import java.util.Locale;
import java.util.Objects;

/**
 * What every page needs beside its own content.
 *
 * @param title the page's, without the program's name
 * @param section the part of the program that the page belongs to: jobs, comparison or none
 * @param user who is signed in, or who says to be; empty where nobody does
 * @param mustSignIn whether users are known to this server
 * @param csrf the session's token, that every form carries
 * @param figures numbers and times as the reader's language writes them
 * @param assets where scripts and styles lie
 * @param notice a word on what was just done; empty for none
 */
public record Frame(
    String title,
    String section,
    String user,
    boolean mustSignIn,
    String csrf,
    PageFigures figures,
    Assets assets,
    String notice) {
  public Frame {
    Objects.requireNonNull(title, "title");
    Objects.requireNonNull(section, "section");
    Objects.requireNonNull(user, "user");
    Objects.requireNonNull(csrf, "csrf");
    Objects.requireNonNull(figures, "figures");
    Objects.requireNonNull(assets, "assets");
    Objects.requireNonNull(notice, "notice");
  }

  /** The reader's language and country. */
  public Locale locale() {
    return figures.locale();
  }

  /** The address of a script or style. */
  public String asset(String name) {
    return assets.path(name);
  }
}
