package selvage.hotfolder;

import com.fasterxml.jackson.core.JsonFactory;
import com.fasterxml.jackson.core.JsonGenerator;
import java.io.IOException;
import java.io.PrintWriter;
import java.io.StringWriter;
import java.time.Clock;
import java.time.temporal.ChronoUnit;
import java.util.HashSet;
import java.util.Objects;
import java.util.Set;

/**
 * What happens, a line each: as text for people, or as a JSON object for programs. Safe for use by
 * many threads.
 */
public final class EventLog {
  /** The form of a line. */
  public enum Form {
    TEXT,
    JSON
  }

  private final PrintWriter out;
  private final Form form;
  private final Clock clock;
  private final JsonFactory factory = new JsonFactory();
  private final Set<String> troubles = new HashSet<>();

  /**
   * Makes a log.
   *
   * @param out takes the lines
   */
  public EventLog(PrintWriter out, Form form, Clock clock) {
    this.out = Objects.requireNonNull(out, "out");
    this.form = Objects.requireNonNull(form, "form");
    this.clock = Objects.requireNonNull(clock, "clock");
  }

  /**
   * Tells of something.
   *
   * @param event a word for programs
   * @param text for people, what follows the word; a line at most
   * @param folder the hot folder's name, or empty
   * @param file the file it is about, or empty
   */
  synchronized void tell(String event, String folder, String file, String text) {
    String time = clock.instant().truncatedTo(ChronoUnit.MILLIS).toString();
    if (form == Form.TEXT) {
      String place = folder.isEmpty() ? "" : " [" + folder + "]";
      out.println(
          clean(time + " " + event + place + (file.isEmpty() ? "" : " " + file) + " " + text));
    } else {
      StringWriter line = new StringWriter();
      try (JsonGenerator json = factory.createGenerator(line)) {
        json.writeStartObject();
        json.writeStringField("time", time);
        json.writeStringField("event", event);
        json.writeStringField("folder", folder);
        json.writeStringField("file", file);
        json.writeStringField("text", text);
        json.writeEndObject();
      } catch (IOException e) {
        throw new IllegalStateException("a string takes everything", e);
      }
      out.println(line);
    }
    out.flush();
  }

  /** Tells of a trouble once, until {@link #over} is called for it. */
  synchronized void trouble(String key, String folder, String text) {
    if (troubles.add(key)) {
      tell("trouble", folder, "", text);
    }
  }

  /** Tells that a trouble is over, if it was told of. */
  synchronized void over(String key, String folder, String text) {
    if (troubles.remove(key)) {
      tell("recovered", folder, "", text);
    }
  }

  /** How many troubles there are now. */
  synchronized int troubles() {
    return troubles.size();
  }

  /** No file's name can begin a new line or move the cursor of a terminal. */
  private static String clean(String line) {
    StringBuilder text = new StringBuilder(line.length());
    line.codePoints().forEach(c -> text.appendCodePoint(Character.isISOControl(c) ? '\uFFFD' : c));
    return text.toString();
  }
}
