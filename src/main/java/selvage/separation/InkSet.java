package selvage.separation;

import java.util.ArrayList;
import java.util.HashMap;
import java.util.List;
import java.util.Map;
import selvage.ink.Colorant;

/**
 * The colorants of a page, each with a slot: the four process colorants in slots 0 to 3, then spots
 * in the order in which they were met. It grows while a page is read.
 */
final class InkSet {
  /** More spots than a page can be printed with; a page that names more is refused. */
  static final int MOST = 250;

  private final List<Colorant> colorants = new ArrayList<>(Colorant.PROCESS);
  private final Map<String, Integer> slots = new HashMap<>();

  InkSet() {
    for (int i = 0; i < colorants.size(); i++) {
      slots.put(colorants.get(i).name(), i);
    }
  }

  int size() {
    return colorants.size();
  }

  Colorant colorant(int slot) {
    return colorants.get(slot);
  }

  /** A copy of the list as it stands. */
  List<Colorant> colorants() {
    return List.copyOf(colorants);
  }

  /**
   * The slot of a colorant, made if it is new.
   *
   * @return the slot, or -1 where the page has too many colorants to print
   */
  int slot(String name) {
    Integer known = slots.get(name);
    if (known != null) {
      return known;
    }
    if (colorants.size() >= MOST) {
      return -1;
    }
    colorants.add(Colorant.named(name));
    slots.put(name, colorants.size() - 1);
    return colorants.size() - 1;
  }
}
