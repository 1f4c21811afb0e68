package selvage.draw;

import static org.assertj.core.api.Assertions.assertThat;

import java.io.IOException;
import java.io.InputStream;
import java.nio.charset.StandardCharsets;
import org.junit.jupiter.api.Test;

/** The invented season in {@code testdata/} is what the code beside it invents. */
class SeasonOfProofsTest {
  @Test
  void text_again_givesTheCommittedSeason() throws IOException {
    try (InputStream committed = SeasonOfProofsTest.class.getResourceAsStream("/demo/season.csv")) {
      assertThat(SeasonOfProofs.text())
          .isEqualTo(new String(committed.readAllBytes(), StandardCharsets.UTF_8));
    }
  }
}
