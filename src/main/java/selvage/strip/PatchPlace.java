package selvage.strip;

import java.util.Objects;

/**
 * Where in a job a patch's colour is found: the box around the largest connected area that it
 * stands for.
 *
 * @param page counted from 1
 * @param box from the lower left corner of the page's counted area as displayed; exact to four
 *     samples
 */
public record PatchPlace(int page, BoxMm box) {
  public PatchPlace {
    Objects.requireNonNull(box, "box");
    if (page < 1) {
      throw new IllegalArgumentException("page " + page);
    }
  }
}
