package selvage.separation;

import java.util.ArrayDeque;
import java.util.Deque;
import org.apache.pdfbox.cos.COSBase;
import org.apache.pdfbox.cos.COSDictionary;
import org.apache.pdfbox.cos.COSName;
import org.apache.pdfbox.cos.COSObject;
import org.apache.pdfbox.cos.COSObjectKey;

/** Where the reading of a page stands, in words for a finding. */
final class Place {
  private static final int MOST_SHOWN = 4;
  private static final int MOST_CHARACTERS = 80;

  private final int page;
  private final Deque<String> within = new ArrayDeque<>();

  /**
   * A place.
   *
   * @param page counted from 1
   */
  Place(int page) {
    this.page = page;
  }

  void enter(String what) {
    within.addLast(
        what.length() > MOST_CHARACTERS ? what.substring(0, MOST_CHARACTERS - 1) + "…" : what);
  }

  void leave() {
    within.removeLast();
  }

  /** For example {@code page 2, form Fm1 (object 12)}. */
  @Override
  public String toString() {
    StringBuilder text = new StringBuilder("page ").append(page);
    int shown = 0;
    for (String what : within) {
      if (++shown <= MOST_SHOWN) {
        text.append(", ").append(what);
      }
    }
    return text.toString();
  }

  /** A thing with its object number where it has one: {@code soft mask (object 7)}. */
  static String numbered(String what, COSBase item) {
    COSObjectKey key = item == null ? null : item.getKey();
    return key == null ? what : what + " (object " + key.getNumber() + ")";
  }

  /**
   * A named resource.
   *
   * @param item what the name stands for there, a reference or an object; null where it is missing
   */
  record Resource(String name, COSBase item) {
    /**
     * What a name stands for.
     *
     * @param resources may be null
     * @param category of resources, such as Font
     */
    static Resource of(COSDictionary resources, COSName category, COSName name) {
      COSDictionary named = resources == null ? null : resources.getCOSDictionary(category);
      return new Resource(name.getName(), named == null ? null : named.getItem(name));
    }

    /** The object itself; null where it is missing. */
    COSBase object() {
      return item instanceof COSObject reference ? reference.getObject() : item;
    }

    /** For example {@code font F1 (object 7)}. */
    String described(String kind) {
      return numbered(kind + " " + name, item);
    }
  }
}
