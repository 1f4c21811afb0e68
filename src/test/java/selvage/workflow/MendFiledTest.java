package selvage.workflow;

import static org.assertj.core.api.Assertions.assertThat;
import static org.assertj.core.api.Assertions.assertThatThrownBy;
import static org.assertj.core.api.Assertions.within;

import com.fasterxml.jackson.core.JsonFactory;
import com.fasterxml.jackson.core.JsonGenerator;
import java.io.StringWriter;
import java.nio.file.Files;
import java.nio.file.Path;
import java.util.List;
import java.util.Optional;
import java.util.OptionalDouble;
import org.junit.jupiter.api.BeforeEach;
import org.junit.jupiter.api.Test;
import org.junit.jupiter.api.io.TempDir;
import selvage.color.Correction;
import selvage.finding.InputException;
import selvage.ledger.LedgerFixture;
import selvage.measurement.StripFixture;
import selvage.report.FiledScore;
import selvage.report.ScoreJson;
import selvage.score.Mender;

/** What would mend a print, from its filed score alone, is what the command said of the print. */
class MendFiledTest {
  private static final MendFiled USUAL = new MendFiled(Optional.empty(), Optional.empty());

  @TempDir Path folder;
  private Path strips;
  private String stripsJson;

  @BeforeEach
  void writeStrips() throws Exception {
    strips = folder.resolve("a.proof.strips.json");
    stripsJson = LedgerFixture.strips("Proofer 1", "AAAA-0001");
    Files.writeString(strips, stripsJson);
  }

  /** All colours darker, the paper with them. */
  private ScoreProof.Outcome scored() throws Exception {
    Path measured = folder.resolve("measured.txt");
    Files.writeString(measured, StripFixture.measured("AAAA-0001", -5, 2, 0));
    return ScoreProof.USUAL.run(
        strips, List.of(measured), OptionalDouble.of(Mender.INK_LIMIT_PERCENT));
  }

  private static FiledScore filed(ScoreProof.Outcome outcome) throws Exception {
    StringWriter text = new StringWriter();
    try (JsonGenerator json = new JsonFactory().createGenerator(text)) {
      ScoreJson.write(outcome.scores(), json);
    }
    return FiledScore.parse("score.json", text.toString());
  }

  @Test
  void run_filedScore_isAsTheCommandSaid() throws Exception {
    ScoreProof.Outcome outcome = scored();
    Correction wanted = outcome.mending().orElseThrow().correction();
    Correction found = USUAL.run(strips, stripsJson, filed(outcome)).correction();

    assertThat(found.curves()).hasSameSizeAs(wanted.curves());
    for (int i = 0; i < found.curves().size(); i++) {
      Correction.Curve curve = found.curves().get(i);
      assertThat(curve.ink()).isEqualTo(wanted.curves().get(i).ink());
      for (int j = 0; j < curve.points().size(); j++) {
        assertThat(curve.points().get(j).correctedPercent())
            .isEqualTo(wanted.curves().get(i).points().get(j).correctedPercent(), within(0.05));
      }
    }
    assertThat(found.recipes().keySet()).isEqualTo(wanted.recipes().keySet());
  }

  @Test
  void run_scoreOfOtherStrips_isAFaultOfTheInput() throws Exception {
    FiledScore score = filed(scored());
    String others = LedgerFixture.strips("Proofer 1", "BBBB-0001");

    assertThatThrownBy(() -> USUAL.run(strips, others, score))
        .isInstanceOf(InputException.class)
        .hasMessageContaining("AAAA-0001");
  }
}
