package selvage.separation;

/**
 * What a page may cost before it is given up.
 *
 * @param seconds of work on one page
 * @param samples of the page's raster
 * @param imageBytes of one decoded image
 */
public record ContentLimits(double seconds, long samples, long imageBytes) {
  /** For a sheet as large as presses print, at any sensible resolution. */
  public static final ContentLimits USUAL = new ContentLimits(300, 400_000_000L, 1L << 30);

  /** Thrown where a limit is passed; unchecked, since it ends the page from any depth. */
  static final class PassedException extends RuntimeException {
    private static final long serialVersionUID = 1L;

    PassedException(String message) {
      super(message);
    }
  }
}
