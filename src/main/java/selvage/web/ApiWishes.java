package selvage.web;

import io.javalin.http.Context;
import java.time.Instant;
import java.time.format.DateTimeParseException;
import java.util.Optional;
import selvage.finding.InputException;
import selvage.ledger.JobRecord;

/** What a request to the API asks for in its address: told to be wrong, where it is. */
final class ApiWishes {
  private static final int MOST_TEXT = 300;

  private ApiWishes() {}

  static InputException wrong(String name, String expected, String found) {
    String shown = found.length() <= 80 ? found : found.substring(0, 80) + "…";
    return InputException.of(name, "expected " + expected + ", found \"" + shown + "\"");
  }

  static Optional<String> text(Context context, String name) throws InputException {
    String given = context.queryParam(name);
    if (given == null || given.isBlank()) {
      return Optional.empty();
    }
    if (given.length() > MOST_TEXT) {
      throw wrong(name, "at most " + MOST_TEXT + " letters", given);
    }
    return Optional.of(given);
  }

  static Optional<Instant> moment(Context context, String name) throws InputException {
    Optional<String> given = text(context, name);
    if (given.isEmpty()) {
      return Optional.empty();
    }
    try {
      Instant moment = Instant.parse(given.get());
      if (moment.isBefore(Instant.parse("0001-01-01T00:00:00Z"))
          || moment.isAfter(Instant.parse("9999-12-31T00:00:00Z"))) {
        throw wrong(name, "a time in the years 1 to 9999", given.get());
      }
      return Optional.of(moment);
    } catch (DateTimeParseException e) {
      throw wrong(name, "a time such as 2026-11-25T10:03:00Z", given.get());
    }
  }

  static Optional<JobRecord.State> state(Context context) throws InputException {
    Optional<String> given = text(context, "state");
    if (given.isEmpty()) {
      return Optional.empty();
    }
    for (JobRecord.State state : JobRecord.State.values()) {
      if (state.word().equals(given.get())) {
        return Optional.of(state);
      }
    }
    throw wrong("state", "stamped, refused or measurement-refused", given.get());
  }

  static int whole(Context context, String name, int otherwise, int least, int most)
      throws InputException {
    Optional<String> given = text(context, name);
    if (given.isEmpty()) {
      return otherwise;
    }
    try {
      int value = Integer.parseInt(given.get());
      if (value >= least && value <= most) {
        return value;
      }
    } catch (NumberFormatException e) {
      // Told below.
    }
    throw wrong(name, "a whole number from " + least + " to " + most, given.get());
  }
}
