package selvage.separation;

import static org.assertj.core.api.Assertions.assertThatThrownBy;

import java.io.ByteArrayOutputStream;
import java.nio.charset.StandardCharsets;
import java.nio.file.Files;
import java.nio.file.Path;
import org.apache.pdfbox.pdfwriter.compress.CompressParameters;
import org.apache.pdfbox.pdmodel.PDDocument;
import org.apache.pdfbox.pdmodel.PDPage;
import org.junit.jupiter.api.Test;
import org.junit.jupiter.api.io.TempDir;
import selvage.finding.InputException;

class PdfFileTest {
  @TempDir Path folder;

  @Test
  void open_encryptedForCertificates_refused() throws Exception {
    Path job = encrypted("Adobe.PubSec");
    assertThatThrownBy(() -> PdfFile.open(job))
        .isInstanceOf(InputException.class)
        .hasMessageContainingAll("encrypted.pdf", "certificates", "ask for an open file");
  }

  @Test
  void open_encryptedBySomeOtherFilter_refused() throws Exception {
    Path job = encrypted("Nobody.Knows");
    assertThatThrownBy(() -> PdfFile.open(job))
        .isInstanceOf(InputException.class)
        .hasMessageContainingAll("encrypted.pdf", "ask for the file again");
  }

  private Path encrypted(String filter) throws Exception {
    ByteArrayOutputStream out = new ByteArrayOutputStream();
    try (PDDocument document = new PDDocument()) {
      document.addPage(new PDPage());
      document.save(out, CompressParameters.NO_COMPRESSION);
    }
    String text = out.toString(StandardCharsets.ISO_8859_1);
    String locked =
        text.replace(
            "trailer\n<<",
            "trailer\n<< /Encrypt << /Filter /" + filter + " /SubFilter /adbe.pkcs7.s5 /V 4 >>");
    return Files.write(
        folder.resolve("encrypted.pdf"), locked.getBytes(StandardCharsets.ISO_8859_1));
  }
}
