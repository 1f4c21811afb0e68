package selvage.strip;

import java.util.Objects;
import selvage.survey.Census;

/**
 * A page that a job set was chosen for.
 *
 * @param page counted from 1
 * @param dpi samples an inch
 * @param census its colours
 */
public record PageColors(int page, double dpi, Census census) {
  public PageColors {
    Objects.requireNonNull(census, "census");
    if (page < 1 || !(dpi > 0)) {
      throw new IllegalArgumentException("page " + page + ", " + dpi + " dpi");
    }
  }
}
