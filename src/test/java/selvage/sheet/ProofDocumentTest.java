package selvage.sheet;

import static org.assertj.core.api.Assertions.assertThat;

import java.io.OutputStream;
import java.nio.charset.StandardCharsets;
import java.nio.file.Files;
import java.nio.file.Path;
import java.time.Instant;
import java.util.Map;
import java.util.Optional;
import org.apache.pdfbox.Loader;
import org.apache.pdfbox.cos.COSName;
import org.apache.pdfbox.pdmodel.PDDocument;
import org.junit.jupiter.api.Test;
import org.junit.jupiter.api.io.TempDir;
import selvage.finding.Finding;
import selvage.strip.ReaderGeometry;

class ProofDocumentTest {
  private static final String BOX = "/MediaBox [0 0 300 300] ";
  private static final String CONTENT = "0 0 0 0.5 k 20 20 50 50 re f";

  @TempDir Path folder;

  private Path stamped(JobPdf pdf) throws Exception {
    Path job = folder.resolve("job.pdf");
    Path proof = folder.resolve("proof.pdf");
    Files.write(job, pdf.bytes());
    try (ProofDocument document = ProofDocument.open(job)) {
      document.stamp(
          1,
          StampedSheet.content(1, 6, "none"),
          ReaderGeometry.load("handheld-spot"),
          Map.of(),
          Optional.empty(),
          InkOccupancy.UNKNOWN);
      try (OutputStream out = Files.newOutputStream(proof)) {
        document.write(out, Instant.parse("2026-11-25T10:03:00Z"), 7);
      }
    }
    return proof;
  }

  @Test
  void write_xmpPacket_hasTheDateOfChangeAndNothingElseChanged() throws Exception {
    JobPdf pdf = new JobPdf();
    String packet =
        "<x:xmpmeta xmp:ModifyDate='2001-01-01T00:00:00Z'><xmp:ModifyDate>2001-01-01T00:00:00Z"
            + "</xmp:ModifyDate><xmp:CreateDate>2001-01-01T00:00:00Z</xmp:CreateDate>"
            + "<xmp:MetadataDate>2001</xmp:MetadataDate><dc:title>M\u00fchle</dc:title></x:xmpmeta>";
    int metadata = pdf.stream("/Type /Metadata /Subtype /XML", packet);
    pdf.catalog("/Metadata " + metadata + " 0 R").page(BOX, CONTENT);
    try (PDDocument proof = Loader.loadPDF(stamped(pdf).toFile())) {
      String changed =
          new String(
              proof.getDocumentCatalog().getMetadata().toByteArray(), StandardCharsets.ISO_8859_1);
      assertThat(changed)
          .isEqualTo(
              packet
                  .replace("Date='2001-01-01T00:00:00Z'", "Date='2026-11-25T10:03:00Z'")
                  .replace(
                      "<xmp:ModifyDate>2001-01-01T00:00:00Z",
                      "<xmp:ModifyDate>2026-11-25T10:03:00Z")
                  .replace("<xmp:MetadataDate>2001<", "<xmp:MetadataDate>2026-11-25T10:03:00Z<"));
      assertThat(proof.getDocumentInformation().getModificationDate().toInstant())
          .isEqualTo(Instant.parse("2026-11-25T10:03:00Z"));
    }
  }

  @Test
  void open_signedJob_saysThatTheSignatureNoLongerHolds() throws Exception {
    JobPdf pdf = new JobPdf();
    int signature =
        pdf.object("<< /Type /Sig /Filter /Adobe.PPKLite /ByteRange [0 1 2 3] /Contents <00> >>");
    int field = pdf.object("<< /FT /Sig /T (one) /V " + signature + " 0 R >>");
    pdf.catalog("/AcroForm << /SigFlags 3 /Fields [" + field + " 0 R] >>").page(BOX, CONTENT);
    Path job = folder.resolve("job.pdf");
    Files.write(job, pdf.bytes());
    try (ProofDocument document = ProofDocument.open(job)) {
      assertThat(document.findings()).extracting(Finding::code).contains("signature-broken");
    }
  }

  @Test
  void stamp_pdfXWithTrimBox_getsNoArtBox() throws Exception {
    JobPdf pdf = new JobPdf();
    pdf.catalog("/OutputIntents [<< /S /GTS_PDFX /OutputConditionIdentifier (X) >>]")
        .page(BOX + "/TrimBox [10 10 290 290] ", CONTENT);
    try (PDDocument proof = Loader.loadPDF(stamped(pdf).toFile())) {
      assertThat(proof.getPage(0).getCOSObject().containsKey(COSName.ART_BOX)).isFalse();
      assertThat(proof.getPage(0).getCOSObject().containsKey(COSName.BLEED_BOX)).isTrue();
      assertThat(proof.getDocumentCatalog().getOutputIntents()).hasSize(1);
    }
  }

  @Test
  void stamp_resourcesSharedByPages_leavesTheOtherPageAsItWas() throws Exception {
    JobPdf pdf = new JobPdf();
    int resources = pdf.object("<< /ProcSet [/PDF] >>");
    String shared = BOX + "/Resources " + resources + " 0 R ";
    pdf.page(shared, CONTENT).page(shared, CONTENT);
    try (PDDocument proof = Loader.loadPDF(stamped(pdf).toFile())) {
      assertThat(proof.getPage(0).getResources().getXObjectNames()).hasSize(1);
      assertThat(proof.getPage(1).getResources().getXObjectNames()).isEmpty();
      assertThat(proof.getPage(1).getMediaBox().getHeight()).isEqualTo(300);
    }
  }
}
