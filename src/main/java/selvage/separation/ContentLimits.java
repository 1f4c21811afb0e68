package selvage.separation;

/**
 * What a page may cost before it is given up.
 *
 * @param seconds of work on one page
 * @param samples of the page's raster
 * @param imageBytes of one decoded image
 * @param keptImageBytes of decoded images that are kept while a page is read
 */
public record ContentLimits(double seconds, long samples, long imageBytes, long keptImageBytes) {
  /** For a sheet as large as presses print, at any sensible resolution. */
  public static final ContentLimits USUAL =
      new ContentLimits(300, 400_000_000L, 1L << 30, 160L << 20);

  /** Thrown where a limit is passed; unchecked, since it ends the page from any depth. */
  static final class PassedException extends RuntimeException {
    private static final long serialVersionUID = 1L;

    PassedException(String message) {
      super(message);
    }
  }
}
