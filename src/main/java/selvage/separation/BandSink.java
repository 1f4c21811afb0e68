package selvage.separation;

import java.io.IOException;

/** Takes a page's ink planes band by band, from the top. */
public interface BandSink {
  /**
   * Takes a band.
   *
   * @param band must not be kept
   */
  void take(Band band) throws IOException;
}
