package selvage.separation;

import java.io.IOException;
import java.io.RandomAccessFile;
import java.nio.charset.StandardCharsets;
import java.nio.file.Path;
import java.util.List;
import org.apache.pdfbox.Loader;
import org.apache.pdfbox.io.IOUtils;
import org.apache.pdfbox.pdmodel.PDDocument;
import org.apache.pdfbox.pdmodel.encryption.InvalidPasswordException;
import selvage.finding.Finding;
import selvage.finding.InputException;

/**
 * The one place where a customer's PDF is opened. PDFBox puts together what it finds of a file that
 * was cut off, and pages would go missing unnoticed: such a file is refused.
 */
final class PdfFile {
  /** How far from its end a file may have its last marks. */
  private static final int TAIL_BYTES = 1 << 16;

  private static final String END_MARK = "%%EOF";
  private static final String TABLE_MARK = "startxref";

  private PdfFile() {}

  /**
   * Opens a file.
   *
   * @throws InputException if it can't be used: no PDF, cut off, locked, without pages
   */
  static JobDocument open(Path file) throws InputException {
    String name = file.toString();
    PDDocument document;
    try {
      document = Loader.loadPDF(file.toFile());
    } catch (InvalidPasswordException e) {
      throw InputException.of(
          name,
          "expected a PDF that opens without a password, found one that is encrypted and needs a"
              + " password to be opened; ask for an open file",
          e);
    } catch (NoClassDefFoundError e) {
      throw lockedForCertificates(name, e);
    } catch (IOException | RuntimeException | StackOverflowError | OutOfMemoryError e) {
      throw InputException.of(
          name,
          "expected a PDF, TIFF or JPEG, found something that can't be read as one ("
              + Reason.of(e)
              + "); ask for the file again",
          e);
    }
    try {
      return new JobDocument(document, check(document, file));
    } catch (InputException e) {
      IOUtils.closeQuietly(document);
      throw e;
    } catch (IOException | RuntimeException | StackOverflowError e) {
      IOUtils.closeQuietly(document);
      throw InputException.of(name, "its pages can't be read (" + Reason.of(e) + ")", e);
    }
  }

  /**
   * What PDFBox throws for a file that is encrypted for the holders of certificates: it opens them
   * by a library of cryptography that this program leaves out, having no certificate to offer.
   *
   * @throws NoClassDefFoundError where another class is missing, which is no fault of the file
   */
  private static InputException lockedForCertificates(String name, NoClassDefFoundError e) {
    if (e.getMessage() == null || !e.getMessage().startsWith("org/bouncycastle/")) {
      throw e;
    }
    return InputException.of(
        name,
        "expected a PDF that opens without a key, found one that is encrypted for the holders of"
            + " certificates; ask for an open file",
        e);
  }

  /** Refuses what can't be used, and mends what can be. */
  private static List<Finding> check(PDDocument document, Path file)
      throws InputException, IOException {
    if (isCutOff(file)) {
      throw InputException.of(
          file.toString(),
          "expected a whole PDF, found one that is cut off at its end; fetch it again");
    }
    PageTree tree = PageTree.of(document);
    if (tree.size() == 0) {
      throw InputException.of(
          file.toString(),
          "its page tree: expected at least one page (a dictionary of the type Page), found none;"
              + " ask for the file again");
    }
    return tree.mend().stream().toList();
  }

  /** Whether a file ends before its end mark, or goes on with an object after its last one. */
  private static boolean isCutOff(Path file) throws IOException {
    byte[] tail;
    try (RandomAccessFile in = new RandomAccessFile(file.toFile(), "r")) {
      long from = Math.max(0, in.length() - TAIL_BYTES);
      tail = new byte[(int) (in.length() - from)];
      in.seek(from);
      in.readFully(tail);
    }
    String text = new String(tail, StandardCharsets.ISO_8859_1);
    int mark = Math.max(text.lastIndexOf(END_MARK), text.lastIndexOf(TABLE_MARK));
    return mark < 0 || text.indexOf(" obj", mark) >= 0;
  }
}
