package selvage.workflow;

import static org.assertj.core.api.Assertions.assertThat;

import java.nio.charset.StandardCharsets;
import java.nio.file.Files;
import java.nio.file.Path;
import java.util.List;
import org.apache.pdfbox.cos.COSArray;
import org.apache.pdfbox.cos.COSDictionary;
import org.apache.pdfbox.cos.COSName;
import org.apache.pdfbox.cos.COSStream;
import org.apache.pdfbox.pdmodel.PDDocument;
import org.apache.pdfbox.pdmodel.PDPage;
import org.apache.pdfbox.pdmodel.PDPageContentStream;
import org.apache.pdfbox.pdmodel.common.PDRectangle;
import org.apache.pdfbox.pdmodel.graphics.color.PDColor;
import org.apache.pdfbox.pdmodel.graphics.color.PDSeparation;
import org.junit.jupiter.api.Test;
import org.junit.jupiter.api.io.TempDir;
import selvage.color.AimSource;
import selvage.color.Lab;
import selvage.color.SpotInk;
import selvage.finding.Finding;
import selvage.separation.ContentLimits;
import selvage.survey.AreaKind;
import selvage.survey.PageSurvey;

/** A job whose output intent carries the spot's colour as CxF. */
class IntentSpotsEndToEndTest {
  @TempDir Path folder;

  private Path job(String cxf) throws Exception {
    Path file = folder.resolve("job.pdf");
    try (PDDocument document = new PDDocument()) {
      PDPage page = new PDPage(new PDRectangle(100, 100));
      document.addPage(page);
      COSArray space = new COSArray();
      space.add(COSName.SEPARATION);
      space.add(COSName.getPDFName("Fern Leaf"));
      space.add(COSName.DEVICECMYK);
      COSDictionary function = new COSDictionary();
      function.setInt(COSName.FUNCTION_TYPE, 2);
      function.setItem(COSName.DOMAIN, array(0, 1));
      function.setItem(COSName.C0, array(0, 0, 0, 0));
      function.setItem(COSName.C1, array(0, 1, 1, 0));
      function.setInt(COSName.N, 1);
      space.add(function);
      try (PDPageContentStream content = new PDPageContentStream(document, page)) {
        content.setNonStrokingColor(new PDColor(new float[] {1}, new PDSeparation(space, null)));
        content.addRect(10, 10, 50, 50);
        content.fill();
      }
      COSStream stream = document.getDocument().createCOSStream();
      try (var out = stream.createOutputStream(COSName.FLATE_DECODE)) {
        out.write(cxf.getBytes(StandardCharsets.UTF_8));
      }
      COSDictionary data = new COSDictionary();
      data.setItem(COSName.getPDFName("Fern Leaf"), stream);
      COSDictionary intent = new COSDictionary();
      intent.setName(COSName.S, "GTS_PDFX");
      intent.setString(COSName.OUTPUT_CONDITION_IDENTIFIER, "FOGRA39");
      intent.setItem(COSName.getPDFName("SpectralData"), data);
      COSArray intents = new COSArray();
      intents.add(intent);
      document.getDocumentCatalog().getCOSObject().setItem(COSName.OUTPUT_INTENTS, intents);
      document.save(file.toFile());
    }
    return file;
  }

  private static COSArray array(float... values) {
    COSArray array = new COSArray();
    array.setFloatArray(values);
    return array;
  }

  private static PageSurvey survey(Path job, Path... libraries) throws Exception {
    return new SurveyJob(
            new SurveyJob.Request(
                job,
                null,
                "1",
                72,
                AreaKind.MEDIA,
                List.of(libraries),
                null,
                null,
                ContentLimits.USUAL))
        .run()
        .pages()
        .get(0);
  }

  private static String cxf(String name, String l) {
    return "<CxF><Resources><ObjectCollection><Object Name=\""
        + name
        + "\"><ColorValues><ColorCIELab><L>"
        + l
        + "</L><A>-40</A><B>20</B></ColorCIELab></ColorValues></Object></ObjectCollection>"
        + "</Resources></CxF>";
  }

  @Test
  void survey_cxfInOutputIntent_isTheAimAndIsTold() throws Exception {
    PageSurvey page = survey(job(cxf("Fern Leaf", "50")));
    SpotInk ink = page.spots().get("Fern Leaf");
    assertThat(ink.solid()).isEqualTo(new Lab(50, -40, 20));
    assertThat(ink.source()).isEqualTo(AimSource.LIBRARY);
    assertThat(page.findings()).extracting(Finding::code).contains("spot-color-from-job");
  }

  @Test
  void survey_libraryBesideIt_libraryCounts() throws Exception {
    Path library = Files.writeString(folder.resolve("own.cxf"), cxf("Fern Leaf", "55"));
    PageSurvey page = survey(job(cxf("Fern Leaf", "50")), library);
    assertThat(page.spots().get("Fern Leaf").solid()).isEqualTo(new Lab(55, -40, 20));
    assertThat(page.findings()).extracting(Finding::code).doesNotContain("spot-color-from-job");
  }

  @Test
  void survey_cxfThatCantBeRead_alternateCountsAndTellsWhy() throws Exception {
    for (String bad : List.of(cxf("Fern Leaf", "n/a"), cxf("Other", "50"), "<html/>", "")) {
      PageSurvey page = survey(job(bad));
      assertThat(page.spots().get("Fern Leaf").source()).isEqualTo(AimSource.ALTERNATE);
      assertThat(page.findings())
          .filteredOn(finding -> finding.code().equals("spot-color-not-read"))
          .singleElement()
          .satisfies(finding -> assertThat(finding.text()).contains("page 1", "Fern Leaf"));
    }
  }
}
