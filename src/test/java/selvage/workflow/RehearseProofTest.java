package selvage.workflow;

import static org.assertj.core.api.Assertions.assertThat;
import static org.assertj.core.api.Assertions.assertThatThrownBy;

import java.io.IOException;
import java.nio.file.Files;
import java.nio.file.Path;
import java.util.List;
import java.util.Map;
import java.util.Optional;
import org.apache.pdfbox.cos.COSArray;
import org.apache.pdfbox.cos.COSDictionary;
import org.apache.pdfbox.cos.COSName;
import org.apache.pdfbox.pdmodel.PDDocument;
import org.apache.pdfbox.pdmodel.PDPage;
import org.junit.jupiter.api.Test;
import org.junit.jupiter.api.io.TempDir;
import selvage.finding.InputException;
import selvage.measurement.Drift;
import selvage.measurement.LabShift;
import selvage.measurement.StripChoice;
import selvage.measurement.StripFixture;
import selvage.strip.StripsFile;
import selvage.strip.StripsJson;

class RehearseProofTest {
  private static final Drift TONE =
      new Drift(Map.of("Cyan", 4.0), Map.of(), LabShift.NONE, Map.of(), LabShift.NONE, 0, 1);

  @TempDir Path folder;

  @Test
  void rehearsal_conditionOfTheOutputIntent_readFromTheProof() throws Exception {
    Path strips = write("output-intent");
    writeProof("FOGRA39");
    assertThat(rehearse(strips, Optional.empty(), TONE))
        .isEqualTo(rehearse(write("built-in"), Optional.empty(), TONE));
  }

  @Test
  void rehearsal_noProofBesideTheStrips_refusedUnlessConditionIsNamed() throws Exception {
    Path strips = write("output-intent");
    assertThatThrownBy(() -> rehearse(strips, Optional.empty(), TONE))
        .isInstanceOf(InputException.class)
        .hasMessageContaining("flyer-proof.pdf")
        .hasMessageContaining("--condition");
    assertThat(rehearse(strips, Optional.of("FOGRA39"), TONE)).contains("tone Cyan +4.0 %");
  }

  @Test
  void rehearsal_proofWithoutOutputIntent_refused() throws Exception {
    Path strips = write("output-intent");
    writeProof(null);
    assertThatThrownBy(() -> rehearse(strips, Optional.empty(), TONE))
        .isInstanceOf(InputException.class)
        .hasMessageContaining("expected an output intent");
  }

  @Test
  void rehearsal_conditionOfAFile_refusedUnlessNothingMoves() throws Exception {
    Path strips = write("file");
    assertThatThrownBy(() -> rehearse(strips, Optional.empty(), TONE))
        .isInstanceOf(InputException.class)
        .hasMessageContaining("came from a file");
    assertThat(rehearse(strips, Optional.empty(), Drift.NONE)).contains("SIMULATED");
  }

  private String rehearse(Path strips, Optional<String> condition, Drift drift)
      throws InputException {
    return new RehearseProof(StripChoice.ANY, condition, drift).rehearsal(strips).text();
  }

  private Path write(String conditionSource) throws IOException {
    StripsFile plain = StripFixture.file(StripFixture.strip("KM7T-90QA", 1));
    StripsFile file =
        new StripsFile(
            plain.job(), plain.proof(), plain.conditionName(), conditionSource, plain.strips());
    Path path = folder.resolve(conditionSource + ".strips.json");
    Files.writeString(path, StripsJson.write(file, List.of()));
    return path;
  }

  private void writeProof(String identifier) throws IOException {
    try (PDDocument document = new PDDocument()) {
      document.addPage(new PDPage());
      if (identifier != null) {
        COSDictionary intent = new COSDictionary();
        intent.setString(COSName.OUTPUT_CONDITION_IDENTIFIER, identifier);
        COSArray intents = new COSArray();
        intents.add(intent);
        document.getDocumentCatalog().getCOSObject().setItem(COSName.OUTPUT_INTENTS, intents);
      }
      document.save(folder.resolve("flyer-proof.pdf").toFile());
    }
  }
}
