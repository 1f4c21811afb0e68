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
  private final Map<Integer, List<Finding>> findings;

  JobDocument(PDDocument document, boolean image, Map<Integer, List<Finding>> findings) {
    this.document = document;
    this.image = image;
    this.findings = findings;
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
    return new JobDocument(PdfFile.open(file), false, Map.of());
  }

  public PDDocument document() {
    return document;
  }

  /** Whether the job was a TIFF or JPEG. */
  public boolean isImage() {
    return image;
  }

  /**
   * What was doubtful about an image that became a page.
   *
   * @param page counted from 1
   */
  public List<Finding> findings(int page) {
    return findings.getOrDefault(page, List.of());
  }

  @Override
  public void close() throws IOException {
    document.close();
  }
}
