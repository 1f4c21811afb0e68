package selvage.sheet;

import java.util.List;
import java.util.Objects;
import selvage.finding.Finding;
import selvage.strip.Patch;
import selvage.strip.Strip;
import selvage.strip.StripLayout;

/**
 * A strip as it was put on a page.
 *
 * @param layout in the strip's own frame
 * @param place on the page
 * @param upright whether its rows run from the bottom to the top of the page as displayed
 * @param findings doubts met on the way
 */
public record StampedStrip(
    StripLayout layout, Strip.Place place, boolean upright, List<Finding> findings) {
  public StampedStrip {
    Objects.requireNonNull(layout, "layout");
    Objects.requireNonNull(place, "place");
    findings = List.copyOf(findings);
  }

  /** The patches with their boxes from the lower left corner of the strip as displayed. */
  public List<Patch> patches() {
    return layout.patches(upright);
  }
}
