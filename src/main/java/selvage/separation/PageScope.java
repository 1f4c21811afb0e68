package selvage.separation;

import java.util.ArrayDeque;
import java.util.Deque;
import org.apache.pdfbox.cos.COSDictionary;
import org.apache.pdfbox.pdmodel.PDPage;
import org.apache.pdfbox.pdmodel.ResourceCache;

/** What all content streams of a page share while it is read. */
final class PageScope {
  private static final int OPERATORS_BETWEEN_LOOKS = 256;

  private final int number;
  private final PDPage page;
  private final ResourceCache cache;
  private final InkSet inks;
  private final SpaceReader spaces;
  private final BlendSpaces blendSpaces;
  private final OptionalContent optionalContent;
  private final FindingList findings;
  private final ContentLimits limits;
  private final Deadline deadline;
  private final Deque<String> places = new ArrayDeque<>();
  private final ImageCache images;
  private final FontCheck fonts = new FontCheck();
  private int operators;
  private boolean allColorantsKnown;

  PageScope(
      int number,
      PDPage page,
      ResourceCache cache,
      InkSet inks,
      SpaceReader spaces,
      BlendSpaces blendSpaces,
      OptionalContent optionalContent,
      FindingList findings,
      ContentLimits limits) {
    this.number = number;
    this.page = page;
    this.cache = cache;
    this.inks = inks;
    this.spaces = spaces;
    this.blendSpaces = blendSpaces;
    this.optionalContent = optionalContent;
    this.findings = findings;
    this.limits = limits;
    this.images = new ImageCache(limits.keptImageBytes());
    this.deadline = Deadline.ofPage(number, limits.seconds());
  }

  PDPage page() {
    return page;
  }

  ResourceCache cache() {
    return cache;
  }

  InkSet inks() {
    return inks;
  }

  SpaceReader spaces() {
    return spaces;
  }

  BlendSpaces blendSpaces() {
    return blendSpaces;
  }

  OptionalContent optionalContent() {
    return optionalContent;
  }

  FindingList findings() {
    return findings;
  }

  ContentLimits limits() {
    return limits;
  }

  FontCheck fonts() {
    return fonts;
  }

  ImageCache images() {
    return images;
  }

  /** Looks at the clock now and then. */
  void countOperator() {
    if (++operators % OPERATORS_BETWEEN_LOOKS == 0) {
      checkTime();
    }
  }

  /** How many operators were met so far. */
  int operators() {
    return operators;
  }

  Deadline deadline() {
    return deadline;
  }

  /**
   * Ends the page where its time is over.
   *
   * @throws ContentLimits.PassedException then
   */
  void checkTime() {
    deadline.check();
  }

  void enter(String place) {
    places.addLast(place.length() > 80 ? place.substring(0, 79) + "…" : place);
  }

  void leave() {
    places.removeLast();
  }

  /** The place for a finding, for example {@code page 2, form Fm1 (object 12)}. */
  String where() {
    StringBuilder text = new StringBuilder("page ").append(number);
    int shown = 0;
    for (String place : places) {
      if (++shown <= 4) {
        text.append(", ").append(place);
      }
    }
    return text.toString();
  }

  /** Reads every colour space in the page's resources, so that each colorant has its slot. */
  void learnAllColorants() {
    if (!allColorantsKnown) {
      allColorantsKnown = true;
      COSDictionary resources =
          page.getResources() == null ? null : page.getResources().getCOSObject();
      new ResourceWalk(spaces).walk(resources);
    }
  }
}
