package selvage.separation;

import java.io.IOException;
import java.util.List;

/** An image that becomes a page: what is the same for all formats. */
interface ImagePage {
  /** Stored columns. */
  int width();

  /** Stored rows. */
  int height();

  ImageResolution resolution() throws IOException;

  /** How the stored rows lie on the page: 1 to 8 as tag 274 of [tiff6] counts; others mean 1. */
  int orientation() throws IOException;

  /** The embedded ICC profile; empty where there is none. */
  byte[] profile() throws IOException;

  /** What its channels become, the base first. */
  List<ImagePart> parts();
}
