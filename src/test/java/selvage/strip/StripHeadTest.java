package selvage.strip;

import static org.assertj.core.api.Assertions.assertThat;

import java.util.ArrayList;
import java.util.List;
import org.junit.jupiter.api.Test;
import org.junit.jupiter.params.ParameterizedTest;
import org.junit.jupiter.params.provider.ValueSource;
import selvage.strip.StripDrawing.Text;

class StripHeadTest {
  private static final double MM_PER_PT = 25.4 / 72;

  /** Letters half an em wide. */
  private static final TextWidth WIDTH = (text, sizePt) -> text.length() * sizePt * 0.176;

  private static final String ID = "3QXP-9J0G";

  private final List<BoxMm> bars = new ArrayList<>();
  private final List<Text> texts = new ArrayList<>();

  private StripHead head(String job, double widthMm) {
    StripLabel label =
        new StripLabel(
            job,
            "page 1 of 1",
            "FOGRA39",
            "2026-11-25 10:03 UTC",
            List.of(new StripLabel.Item("Substrate", ""), new StripLabel.Item("Ink set", "")));
    StripHead head = new StripHead(label, ID, widthMm, WIDTH);
    head.addTo(bars, texts, 50);
    return head;
  }

  @ParameterizedTest
  @ValueSource(doubles = {55, 60, 80, 95, 105.8, 169, 259, 900})
  void addTo_anyWidth_keepsTextInsideAndClearOfTheMarkInTheMiddle(double widthMm) {
    StripHead head = head("flyer.pdf", widthMm);
    double left = bars.stream().mapToDouble(BoxMm::xMm).min().orElseThrow();
    double right = bars.stream().mapToDouble(bar -> bar.xMm() + bar.widthMm()).max().orElseThrow();
    double lower = bars.stream().mapToDouble(BoxMm::yMm).min().orElseThrow();
    double upper = bars.stream().mapToDouble(bar -> bar.yMm() + bar.heightMm()).max().orElseThrow();
    // the strip's middle line crosses the mark well inside
    assertThat(widthMm / 2).isBetween(left + 2, right - 2);
    assertThat(upper).isLessThanOrEqualTo(50 + head.heightMm() + 0.1);
    for (Text text : texts) {
      double end = text.xMm() + WIDTH.mm(text.text(), text.sizePt());
      double top = text.baselineMm() + 0.75 * text.sizePt() * MM_PER_PT;
      assertThat(text.sizePt()).isGreaterThanOrEqualTo(6);
      assertThat(text.xMm()).isGreaterThanOrEqualTo(4);
      assertThat(end).isLessThanOrEqualTo(widthMm - 4 + 1e-6);
      assertThat(text.baselineMm()).isGreaterThan(50);
      assertThat(top).isLessThanOrEqualTo(50 + head.heightMm());
      assertThat(end <= left - 2.5 || text.xMm() >= right + 2.5 || top <= lower - 2.5)
          .as("%s is clear of the mark", text)
          .isTrue();
    }
    assertThat(texts).anyMatch(text -> text.text().contains(ID));
  }

  @Test
  void addTo_longJobName_breaksItBehindAMarkInTwoLines() {
    head("spring-catalogue_cover_and_back-final_version-2.pdf", 120);
    List<String> lines = texts.stream().map(Text::text).toList();
    int first = lines.indexOf("spring-catalogue_cover_and_back-");
    assertThat(first).isNotNegative();
    assertThat(lines.get(first + 1)).startsWith("final_version-2.pdf");
  }
}
