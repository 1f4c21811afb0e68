package selvage.web;

import io.javalin.http.Context;
import java.net.URLEncoder;
import java.nio.charset.StandardCharsets;
import java.time.Instant;
import java.time.LocalDate;
import java.time.ZoneOffset;
import java.time.format.DateTimeParseException;
import java.util.ArrayList;
import java.util.LinkedHashMap;
import java.util.List;
import java.util.Map;
import java.util.Optional;
import selvage.ledger.ScoreFilter;

/**
 * Which proofs are to be compared.
 *
 * @param given what was asked for, by its name in the address; empty texts for no wish
 * @param filter the same for the ledger
 * @param complaints what could not be understood, and was passed over
 */
public record ComparisonWish(
    Map<String, String> given, ScoreFilter filter, List<String> complaints) {
  private static final int MOST_TEXT = 300;
  private static final List<String> NAMES =
      List.of("from", "to", "proofing_system", "substrate", "condition", "folder");

  public ComparisonWish {
    given = Map.copyOf(given);
    complaints = List.copyOf(complaints);
  }

  static ComparisonWish of(Context context) {
    Map<String, String> given = new LinkedHashMap<>();
    for (String name : NAMES) {
      String text = Optional.ofNullable(context.queryParam(name)).orElse("").strip();
      given.put(name, text.length() > MOST_TEXT ? text.substring(0, MOST_TEXT) : text);
    }
    List<String> complaints = new ArrayList<>();
    Optional<Instant> from = day(given.get("from"), 0, "From", complaints);
    Optional<Instant> to = day(given.get("to"), 1, "To", complaints);
    if (from.isPresent() && to.isPresent() && !from.get().isBefore(to.get())) {
      complaints.add("The period ends before it begins.");
    }
    return new ComparisonWish(
        given,
        new ScoreFilter(
            from,
            to,
            text(given, "proofing_system"),
            text(given, "substrate"),
            text(given, "condition"),
            text(given, "folder")),
        complaints);
  }

  private static Optional<String> text(Map<String, String> given, String name) {
    return Optional.of(given.get(name)).filter(text -> !text.isEmpty());
  }

  /** The beginning of a day in UTC, so many days later. */
  private static Optional<Instant> day(
      String text, int daysLater, String name, List<String> complaints) {
    if (text.isEmpty()) {
      return Optional.empty();
    }
    try {
      LocalDate day = LocalDate.parse(text);
      if (day.getYear() < 1 || day.getYear() > 9998) {
        throw new DateTimeParseException("outside the years 1 to 9998", text, 0);
      }
      return Optional.of(day.plusDays(daysLater).atStartOfDay().toInstant(ZoneOffset.UTC));
    } catch (DateTimeParseException e) {
      complaints.add(name + ": expected a day such as 2026-09-01, found \"" + text + "\".");
      return Optional.empty();
    }
  }

  /** Whether anything was asked for. */
  public boolean narrowed() {
    return given.values().stream().anyMatch(text -> !text.isEmpty());
  }

  /** What was asked for, as it stands in an address behind the question mark. */
  public String query() {
    List<String> parts = new ArrayList<>();
    for (String name : NAMES) {
      if (!given.get(name).isEmpty()) {
        parts.add(name + "=" + URLEncoder.encode(given.get(name), StandardCharsets.UTF_8));
      }
    }
    return String.join("&", parts);
  }
}
