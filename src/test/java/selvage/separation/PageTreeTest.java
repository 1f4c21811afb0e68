package selvage.separation;

import static org.assertj.core.api.Assertions.assertThat;

import java.nio.charset.StandardCharsets;
import java.util.ArrayList;
import java.util.List;
import java.util.Optional;
import org.apache.pdfbox.Loader;
import org.apache.pdfbox.cos.COSName;
import org.apache.pdfbox.pdmodel.PDDocument;
import org.junit.jupiter.api.Test;
import org.junit.jupiter.params.ParameterizedTest;
import org.junit.jupiter.params.provider.CsvSource;
import selvage.finding.Finding;
import selvage.finding.Severity;

class PageTreeTest {
  /** A document whose page tree begins at object 2; objects follow, from number 2 on. */
  private static PDDocument document(String... objects) throws Exception {
    StringBuilder pdf = new StringBuilder("%PDF-1.7\n");
    List<Integer> offsets = new ArrayList<>();
    List<String> all = new ArrayList<>(List.of("<< /Type /Catalog /Pages 2 0 R >>"));
    all.addAll(List.of(objects));
    for (int i = 0; i < all.size(); i++) {
      offsets.add(pdf.length());
      pdf.append(i + 1).append(" 0 obj\n").append(all.get(i)).append("\nendobj\n");
    }
    int start = pdf.length();
    pdf.append("xref\n0 ").append(all.size() + 1).append("\n0000000000 65535 f \n");
    offsets.forEach(offset -> pdf.append("%010d 00000 n \n".formatted(offset)));
    pdf.append("trailer\n<< /Root 1 0 R /Size ").append(all.size() + 1);
    pdf.append(" >>\nstartxref\n").append(start).append("\n%%EOF\n");
    return Loader.loadPDF(pdf.toString().getBytes(StandardCharsets.ISO_8859_1));
  }

  private static final String PAGE = "<< /Type /Page /Parent 2 0 R /MediaBox [0 0 9 9] >>";

  @Test
  void mend_soundTree_leavesItAlone() throws Exception {
    try (PDDocument document =
        document(
            "<< /Type /Pages /Kids [3 0 R 4 0 R] /Count 2 >>",
            PAGE,
            "<< /Type /Pages /Parent 2 0 R /Kids [5 0 R] /Count 1 >>",
            "<< /Type /Page /Parent 4 0 R /MediaBox [0 0 9 9] >>")) {
      PageTree tree = PageTree.of(document);
      assertThat(tree.size()).isEqualTo(2);
      assertThat(tree.mend()).isEmpty();
      assertThat(document.getPages().getCOSObject().getCOSArray(COSName.KIDS).size()).isEqualTo(2);
    }
  }

  @Test
  void mend_ringBesideAPage_takesThePageAndWarns() throws Exception {
    try (PDDocument document =
        document(
            "<< /Type /Pages /Kids [3 0 R 4 0 R] /Count 2 >>",
            PAGE,
            "<< /Type /Pages /Kids [5 0 R] /Count 1 >>",
            "<< /Type /Pages /Kids [4 0 R] /Count 1 >>")) {
      Optional<Finding> mended = PageTree.of(document).mend();
      assertThat(mended).isPresent();
      assertThat(mended.get().code()).isEqualTo("page-tree-mended");
      assertThat(mended.get().severity()).isEqualTo(Severity.WARNING);
      assertThat(mended.get().text()).contains("object 2", "says 2 pages, 1 are there");
      assertThat(document.getNumberOfPages()).isEqualTo(1);
      assertThat(document.getPage(0).getMediaBox().getWidth()).isEqualTo(9);
    }
  }

  @ParameterizedTest
  @CsvSource({"1, 1", "-5, 2", "7, 2", "2, 9"})
  void mend_wrongCounts_countsThePages(int ofRoot, int ofInner) throws Exception {
    try (PDDocument document =
        document(
            "<< /Type /Pages /Kids [3 0 R] /Count %d >>".formatted(ofRoot),
            "<< /Type /Pages /Parent 2 0 R /Kids [4 0 R 5 0 R] /Count %d /Rotate 90 >>"
                .formatted(ofInner),
            "<< /Type /Page /Parent 3 0 R /MediaBox [0 0 9 9] /Rotate 180 >>",
            "<< /Type /Page /Parent 3 0 R /MediaBox [0 0 8 8] >>")) {
      assertThat(PageTree.of(document).mend()).isPresent();
      assertThat(document.getNumberOfPages()).isEqualTo(2);
      assertThat(document.getPage(0).getRotation()).isEqualTo(180);
      // what the page inherited from the node that is gone
      assertThat(document.getPage(1).getRotation()).isEqualTo(90);
      assertThat(document.getPage(1).getMediaBox().getWidth()).isEqualTo(8);
      assertThat(PageTree.of(document).mend()).isEmpty();
    }
  }

  @Test
  void of_somethingElseAmongThePages_isNoPage() throws Exception {
    try (PDDocument document =
        document("<< /Type /Pages /Kids [3 0 R null 4 0 R] /Count 3 >>", PAGE, "[1 2]")) {
      PageTree tree = PageTree.of(document);
      assertThat(tree.size()).isEqualTo(1);
      assertThat(tree.mend()).isPresent();
    }
  }

  @Test
  void mend_pageWithoutItsType_isTakenAndNamed() throws Exception {
    try (PDDocument document =
        document(
            "<< /Type /Pages /Kids [3 0 R 4 0 R] /Count 2 >>",
            PAGE,
            "<< /Parent 2 0 R /MediaBox [0 0 7 7] /Contents 5 0 R >>",
            "<< /Length 0 >>\nstream\n\nendstream")) {
      assertThat(PageTree.of(document).mend())
          .get()
          .extracting(Finding::severity)
          .isEqualTo(Severity.NOTE);
      assertThat(document.getNumberOfPages()).isEqualTo(2);
      assertThat(document.getPage(1).getMediaBox().getWidth()).isEqualTo(7);
    }
  }
}
