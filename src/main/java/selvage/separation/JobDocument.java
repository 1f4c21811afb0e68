package selvage.separation;

import java.io.IOException;
import java.io.InputStream;
import java.nio.file.Files;
import java.nio.file.Path;
import java.util.List;
import java.util.Map;
import org.apache.pdfbox.pdmodel.PDDocument;
import selvage.finding.Finding;
import selvage.finding.InputException;

/**
 * A customer's file as a PDF document: a PDF as it is, a TIFF or JPEG with each of its images as a
 * page. Which of them it is, the first bytes say, not the name.
 */
public final class JobDocument implements AutoCloseable {
  private static final int HEAD = 8;

  private final PDDocument document;
  private final boolean image;
  private final List<Finding> mended;
  private final Map<Integer, ImageDoubts> doubts;

  /**
   * What is not certain of an image that became a page.
   *
   * @param uncolored its inks whose colour it does not state, in order
   */
  record ImageDoubts(List<Finding> findings, List<String> uncolored) {
    static final ImageDoubts NONE = new ImageDoubts(List.of(), List.of());

    ImageDoubts {
      findings = List.copyOf(findings);
      uncolored = List.copyOf(uncolored);
    }
  }

  private JobDocument(
      PDDocument document, boolean image, List<Finding> mended, Map<Integer, ImageDoubts> doubts) {
    this.document = document;
    this.image = image;
    this.mended = List.copyOf(mended);
    this.doubts = doubts;
  }

  /** A PDF, and what had to be mended in it. */
  JobDocument(PDDocument document, List<Finding> mended) {
    this(document, false, mended, Map.of());
  }

  /** Images that became pages, with what is not certain of each. */
  JobDocument(PDDocument document, Map<Integer, ImageDoubts> doubts) {
    this(document, true, List.of(), doubts);
  }

  /**
   * Opens a job.
   *
   * @param compressed whether an image's samples are compressed; costs time, and pays where the
   *     document is written to a file
   * @throws InputException if it can't be used: no such kind of file, truncated, locked, without
   *     pages
   */
  public static JobDocument open(Path file, boolean compressed) throws InputException {
    String name = file.toString();
    if (!Files.isRegularFile(file)) {
      throw InputException.of(
          name, "expected a PDF, TIFF or JPEG file, found none; check the path");
    }
    byte[] head;
    try (InputStream in = Files.newInputStream(file)) {
      head = in.readNBytes(HEAD);
    } catch (IOException e) {
      throw InputException.of(name, "can't be read: " + e.getMessage(), e);
    }
    if (TiffDirectory.isTiff(head) || JpegPage.isJpeg(head)) {
      return ImageWrapping.wrap(file, compressed);
    }
    return PdfFile.open(file);
  }

  public PDDocument document() {
    return document;
  }

  /** Whether the job was a TIFF or JPEG. */
  public boolean isImage() {
    return image;
  }

  /** What was not sound in the document as a whole, and is now. */
  List<Finding> mended() {
    return mended;
  }

  /**
   * What is not certain of a page that was an image.
   *
   * @param page counted from 1
   */
  ImageDoubts doubts(int page) {
    return doubts.getOrDefault(page, ImageDoubts.NONE);
  }

  @Override
  public void close() throws IOException {
    document.close();
  }
}
