package selvage.separation;

import java.awt.geom.AffineTransform;
import java.awt.geom.Point2D;
import org.apache.pdfbox.pdmodel.PDPage;
import org.apache.pdfbox.pdmodel.common.PDRectangle;

/**
 * A page's boxes and its raster. Boxes are in default user space units, not rotated; the raster
 * holds the whole MediaBox as displayed (Rotate and UserUnit applied), its first sample at the
 * upper left.
 */
public final class PageGeometry {
  private static final double POINTS_PER_INCH = 72;
  private static final double MM_PER_INCH = 25.4;

  /**
   * A rectangle in default user space units.
   *
   * @param x left
   * @param y lower
   */
  public record Box(double x, double y, double width, double height) {
    double right() {
      return x + width;
    }

    double upper() {
      return y + height;
    }
  }

  /**
   * A rectangle of samples; ends are exclusive.
   *
   * @param left column
   * @param top row
   */
  public record Window(int left, int top, int right, int bottom) {
    /** How many samples it holds. */
    public long count() {
      return (long) (right - left) * (bottom - top);
    }
  }

  private final Box media;
  private final Box bleed;
  private final Box trim;
  private final int rotation;
  private final double userUnit;
  private final double dpi;
  private final int width;
  private final int height;
  private final AffineTransform toSamples;

  PageGeometry(PDPage page, double dpi) {
    this.dpi = dpi;
    Box stated = box(page.getMediaBox());
    media = stated.width > 0 && stated.height > 0 ? stated : new Box(0, 0, 612, 792);
    Box crop = within(box(page.getCropBox()), media);
    bleed =
        page.getCOSObject().containsKey("BleedBox") ? within(box(page.getBleedBox()), media) : crop;
    trim =
        page.getCOSObject().containsKey("TrimBox") ? within(box(page.getTrimBox()), media) : crop;
    rotation = Math.floorMod(page.getRotation(), 360) / 90 * 90;
    float unit = page.getCOSObject().getFloat("UserUnit", 1);
    userUnit = unit > 0 && Float.isFinite(unit) ? unit : 1;
    double scale = scale();
    boolean turned = rotation % 180 != 0;
    width = samples((turned ? media.height : media.width) * scale);
    height = samples((turned ? media.width : media.height) * scale);
    toSamples = new AffineTransform();
    switch (rotation) {
      case 90 -> toSamples.setTransform(0, scale, scale, 0, -media.y * scale, -media.x * scale);
      case 180 ->
          toSamples.setTransform(-scale, 0, 0, scale, media.right() * scale, -media.y * scale);
      case 270 ->
          toSamples.setTransform(
              0, -scale, -scale, 0, media.upper() * scale, media.right() * scale);
      default ->
          toSamples.setTransform(scale, 0, 0, -scale, -media.x * scale, media.upper() * scale);
    }
  }

  private static Box box(PDRectangle r) {
    return new Box(r.getLowerLeftX(), r.getLowerLeftY(), r.getWidth(), r.getHeight());
  }

  /** The part of a box inside another; the other where nothing is left. */
  private static Box within(Box box, Box outer) {
    double left = Math.max(box.x, outer.x);
    double lower = Math.max(box.y, outer.y);
    double right = Math.min(box.right(), outer.right());
    double upper = Math.min(box.upper(), outer.upper());
    return right > left && upper > lower
        ? new Box(left, lower, right - left, upper - lower)
        : outer;
  }

  private static int samples(double size) {
    // A size that is whole but for rounding in the file must not gain a sample.
    return (int) Math.max(1, Math.min(Integer.MAX_VALUE, Math.round(size)));
  }

  /** Samples a user space unit. */
  double scale() {
    return dpi / POINTS_PER_INCH * userUnit;
  }

  public double dpi() {
    return dpi;
  }

  /** Columns of the raster. */
  public int width() {
    return width;
  }

  /** Rows of the raster. */
  public int height() {
    return height;
  }

  public Box media() {
    return media;
  }

  public Box bleed() {
    return bleed;
  }

  public Box trim() {
    return trim;
  }

  /** Clockwise: 0, 90, 180 or 270. */
  public int rotation() {
    return rotation;
  }

  public double userUnit() {
    return userUnit;
  }

  /** The width of a box as displayed, in millimetres. */
  public double displayedWidthMm(Box box) {
    return (rotation % 180 == 0 ? box.width : box.height)
        * userUnit
        / POINTS_PER_INCH
        * MM_PER_INCH;
  }

  /** The height of a box as displayed, in millimetres. */
  public double displayedHeightMm(Box box) {
    return (rotation % 180 == 0 ? box.height : box.width)
        * userUnit
        / POINTS_PER_INCH
        * MM_PER_INCH;
  }

  /** From default user space to samples. */
  AffineTransform toSamples() {
    return new AffineTransform(toSamples);
  }

  /** The samples whose centres lie in a box. */
  public Window window(Box box) {
    Point2D a = toSamples.transform(new Point2D.Double(box.x, box.y), null);
    Point2D b = toSamples.transform(new Point2D.Double(box.right(), box.upper()), null);
    return new Window(
        first(Math.min(a.getX(), b.getX()), width),
        first(Math.min(a.getY(), b.getY()), height),
        first(Math.max(a.getX(), b.getX()), width),
        first(Math.max(a.getY(), b.getY()), height));
  }

  private static int first(double edge, int most) {
    return (int) Math.max(0, Math.min(most, Math.ceil(edge - 0.5 - 1e-6)));
  }
}
