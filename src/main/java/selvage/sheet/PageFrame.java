package selvage.sheet;

import java.awt.geom.AffineTransform;
import java.awt.geom.NoninvertibleTransformException;
import org.apache.pdfbox.pdmodel.PDPage;
import org.apache.pdfbox.pdmodel.common.PDRectangle;

/**
 * A page's boxes, and the way between its default user space and the page as displayed. The
 * displayed frame is in real millimetres from the lower left corner of the media as displayed:
 * Rotate and UserUnit applied.
 */
final class PageFrame {
  private static final double MM_PER_PT = 25.4 / 72;

  /** What viewers take where a page has no usable MediaBox. */
  private static final Rectangle DEFAULT_MEDIA = new Rectangle(0, 0, 612, 792);

  private final Rectangle media;
  private final Rectangle crop;
  private final Rectangle bleed;
  private final double mmPerUnit;
  private final int quarterTurns;
  private final AffineTransform toUser;

  private PageFrame(
      Rectangle media, Rectangle crop, Rectangle bleed, double mmPerUnit, int quarterTurns) {
    this.media = media;
    this.crop = crop;
    this.bleed = bleed;
    this.mmPerUnit = mmPerUnit;
    this.quarterTurns = quarterTurns;
    double scale = 1 / mmPerUnit;
    this.toUser =
        switch (quarterTurns) {
          case 1 -> new AffineTransform(0, scale, -scale, 0, media.urx(), media.lly());
          case 2 -> new AffineTransform(-scale, 0, 0, -scale, media.urx(), media.ury());
          case 3 -> new AffineTransform(0, -scale, scale, 0, media.llx(), media.ury());
          default -> new AffineTransform(scale, 0, 0, scale, media.llx(), media.lly());
        };
  }

  static PageFrame of(PDPage page) {
    Rectangle media = rectangle(page.getMediaBox());
    if (media.width() == 0 || media.height() == 0) {
      media = DEFAULT_MEDIA;
    }
    Rectangle crop = rectangle(page.getCropBox()).within(media);
    Rectangle bleed = rectangle(page.getBleedBox()).within(media);
    // A trim box outside the bleed box is an error of the file; the strip keeps clear of both.
    Rectangle kept = bleed.union(rectangle(page.getTrimBox()).within(media));
    int turns = Math.floorMod(page.getRotation() / 90, 4);
    float unit = page.getUserUnit();
    boolean isUnit = unit > 0 && Float.isFinite(unit);
    return new PageFrame(media, crop, kept, MM_PER_PT * (isUnit ? unit : 1), turns);
  }

  static Rectangle rectangle(PDRectangle box) {
    return new Rectangle(
        box.getLowerLeftX(), box.getLowerLeftY(), box.getUpperRightX(), box.getUpperRightY());
  }

  /** The media box in user space. */
  Rectangle media() {
    return media;
  }

  /** The crop box in user space, within the media box. */
  Rectangle crop() {
    return crop;
  }

  /** From displayed millimetres to user space. */
  AffineTransform toUser() {
    return new AffineTransform(toUser);
  }

  /** A length in user space units. */
  double userUnits(double mm) {
    return mm / mmPerUnit;
  }

  /** A rectangle of user space as displayed, in millimetres. */
  Rectangle displayed(Rectangle user) {
    try {
      return user.transformed(toUser.createInverse());
    } catch (NoninvertibleTransformException e) {
      throw new IllegalStateException(e);
    }
  }

  /** The media as displayed: its lower left corner is 0, 0. */
  Rectangle displayedMedia() {
    boolean across = quarterTurns % 2 == 1;
    double width = across ? media.height() : media.width();
    double height = across ? media.width() : media.height();
    return new Rectangle(0, 0, width * mmPerUnit, height * mmPerUnit);
  }

  /** The crop box as displayed. */
  Rectangle displayedCrop() {
    return displayed(crop);
  }

  /** What the strip must keep clear of, bleed and trim together, as displayed. */
  Rectangle displayedBleed() {
    return displayed(bleed);
  }
}
