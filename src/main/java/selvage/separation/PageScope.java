package selvage.separation;

import org.apache.pdfbox.cos.COSDictionary;
import org.apache.pdfbox.pdmodel.PDPage;
import org.apache.pdfbox.pdmodel.ResourceCache;

/** What all content streams of a page share while it is read. */
final class PageScope {
  private static final int OPERATORS_BETWEEN_LOOKS = 256;

  private final PDPage page;
  private final ResourceCache cache;
  private final InkSet inks;
  private final SpaceReader spaces;
  private final BlendSpaces blendSpaces;
  private final OptionalContent optionalContent;
  private final FindingList findings;
  private final ContentLimits limits;
  private final Deadline deadline;
  private final Place place;
  private final ImageCache images;
  private final FontCheck fonts = new FontCheck();
  private int operators;
  private boolean allColorantsKnown;

  PageScope(
      int number,
      Place place,
      PDPage page,
      ResourceCache cache,
      InkSet inks,
      SpaceReader spaces,
      BlendSpaces blendSpaces,
      OptionalContent optionalContent,
      FindingList findings,
      ContentLimits limits) {
    this.place = place;
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

  void enter(String what) {
    place.enter(what);
  }

  void leave() {
    place.leave();
  }

  Place place() {
    return place;
  }

  /** The place for a finding, for example {@code page 2, form Fm1 (object 12)}. */
  String where() {
    return place.toString();
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
