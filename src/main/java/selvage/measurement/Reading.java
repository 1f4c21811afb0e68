package selvage.measurement;

import java.util.Map;
import java.util.Objects;
import selvage.color.Lab;

/**
 * One reading of an instrument.
 *
 * @param id the sample's id as the file gives it; empty where it gives none
 * @param name the sample's name; empty where the file gives none
 * @param tints what the file says was printed, in percent by the colorant's name; empty where it
 *     says nothing
 * @param lab D50, 2°, absolute
 * @param line in the file, counted from 1
 */
public record Reading(String id, String name, Map<String, Double> tints, Lab lab, int line) {
  public Reading {
    Objects.requireNonNull(id, "id");
    Objects.requireNonNull(name, "name");
    Objects.requireNonNull(lab, "lab");
    tints = Map.copyOf(tints);
  }
}
