package selvage.measurement;

import java.util.ArrayList;
import java.util.List;
import java.util.Map;
import java.util.NavigableMap;
import java.util.TreeMap;
import java.util.TreeSet;
import selvage.color.AimSource;
import selvage.color.Lab;
import selvage.color.SpotInk;
import selvage.finding.Finding;
import selvage.ink.Colorant;
import selvage.strip.Patch;
import selvage.strip.Strip;

/**
 * What the aims of a proof's strips tell of its spot inks. Where no patch is a spot's solid, the
 * solid is drawn out from its darkest tint along a straight line in CIELAB (as the SCTV of ISO
 * 20654 has it); a spot that stands in overprints only is taken for a mid grey.
 *
 * @param inks by the colorant's name
 * @param findings which were guessed
 */
public record StripSpots(Map<String, SpotInk> inks, List<Finding> findings) {
  private static final Lab UNKNOWN = new Lab(50, 0, 0);

  public StripSpots {
    inks = Map.copyOf(inks);
    findings = List.copyOf(findings);
  }

  /**
   * What the aims of strips tell.
   *
   * @param paper the substrate of the condition
   */
  public static StripSpots of(List<Strip> strips, Lab paper) {
    Map<String, NavigableMap<Double, Lab>> ramps = new TreeMap<>();
    for (Strip strip : strips) {
      for (Patch patch : strip.patches()) {
        for (Colorant colorant : new TreeSet<>(patch.mixture().units().keySet())) {
          if (colorant.isSpot()) {
            NavigableMap<Double, Lab> ramp =
                ramps.computeIfAbsent(colorant.name(), name -> new TreeMap<>());
            if (patch.mixture().units().size() == 1) {
              ramp.put(patch.mixture().percent(colorant), patch.aim().lab());
            }
          }
        }
      }
    }
    Map<String, SpotInk> inks = new TreeMap<>();
    List<Finding> findings = new ArrayList<>();
    ramps.forEach((name, ramp) -> inks.put(name, ink(name, ramp, paper, findings)));
    return new StripSpots(inks, findings);
  }

  private static SpotInk ink(
      String name, NavigableMap<Double, Lab> ramp, Lab paper, List<Finding> findings) {
    if (ramp.isEmpty()) {
      findings.add(
          Finding.warning(
              "spot-not-known",
              name + ": no patch shows this spot ink alone; its drift is that of a mid grey"));
      ramp.put(100.0, UNKNOWN);
    } else if (!ramp.containsKey(100.0)) {
      double out = 100 / ramp.lastKey();
      Lab darkest = ramp.lastEntry().getValue();
      ramp.put(
          100.0,
          new Lab(
              Math.max(0, paper.l() + out * (darkest.l() - paper.l())),
              paper.a() + out * (darkest.a() - paper.a()),
              paper.b() + out * (darkest.b() - paper.b())));
      findings.add(
          Finding.note(
              "spot-solid-drawn-out",
              name + ": no patch is its solid; it was drawn out from the darkest tint"));
    }
    return new SpotInk(name, ramp, AimSource.LIBRARY);
  }
}
