package selvage.strip;

import static org.assertj.core.api.Assertions.assertThat;
import static org.assertj.core.api.Assertions.assertThatThrownBy;

import java.nio.charset.StandardCharsets;
import java.util.Locale;
import org.junit.jupiter.api.Test;
import selvage.finding.InputException;

class ReaderGeometryTest {
  @Test
  void load_everyBuiltIn_keepsToCommonPractice() throws Exception {
    for (String name : ReaderGeometry.BUILT_IN) {
      ReaderGeometry reader = ReaderGeometry.load(name);
      assertThat(reader.name()).isEqualTo(name);
      boolean scans = reader.reading() == ReaderGeometry.Reading.SCAN;
      assertThat(reader.patchWidthMm())
          .isGreaterThanOrEqualTo((scans ? 2 : 1.5) * reader.apertureMm())
          .isGreaterThanOrEqualTo(7);
      assertThat(reader.source()).contains("common practice");
    }
  }

  private static byte[] json(String reading, String width) {
    return String.format(
            Locale.ROOT,
            "{\"name\": \"own\", \"source\": \"house\", \"reading\": \"%s\", \"aperture_mm\": 4,"
                + " \"patch_width_mm\": %s, \"patch_height_mm\": 8, \"divider_mm\": 0,"
                + " \"leader_mm\": 9, \"trailer_mm\": 2, \"row_gap_mm\": 3, \"longest_row_mm\":"
                + " 200}",
            reading,
            width)
        .getBytes(StandardCharsets.UTF_8);
  }

  @Test
  void parse_ownFile_isTaken() throws Exception {
    assertThat(ReaderGeometry.parse("own.json", json("scan", "12")).patchWidthMm()).isEqualTo(12);
  }

  @Test
  void parse_wrongWord_saysWhichAreKnown() {
    assertThatThrownBy(() -> ReaderGeometry.parse("own.json", json("hover", "12")))
        .isInstanceOf(InputException.class)
        .hasMessageContaining("own.json: reader.reading: expected one of spot, scan");
  }

  @Test
  void parse_patchNarrowerThanTheAperture_isRefused() {
    assertThatThrownBy(() -> ReaderGeometry.parse("own.json", json("spot", "3")))
        .isInstanceOf(InputException.class)
        .hasMessageContaining("patch_width_mm");
  }

  @Test
  void load_unknownName_saysWhatThereIs() {
    assertThatThrownBy(() -> ReaderGeometry.load("no such reader"))
        .isInstanceOf(InputException.class)
        .hasMessageContaining("handheld-spot");
  }
}
