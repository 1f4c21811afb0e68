package selvage.strip;

import java.util.Locale;

/** Why a job patch was taken. */
public enum Reason {
  /** The solid of a spot, or where the job never prints that, the spot's largest mixture. */
  SPOT,
  /** A flat tint of a spot. */
  SPOT_TINT,
  /** A flat mixture of a spot with other inks. */
  OVERPRINT,
  DARKEST,
  LIGHTEST,
  /** The highest total ink. */
  MOST_INK,
  /** A process mixture close to grey. */
  NEUTRAL,
  /** Much of the inked area lies near it. */
  COVERAGE,
  /** An operator took it. */
  OPERATOR;

  /** Returns the word that stands in JSON, for example {@code spot-tint}. */
  public String word() {
    return name().toLowerCase(Locale.ROOT).replace('_', '-');
  }
}
