package selvage.score;

import static org.assertj.core.api.Assertions.assertThat;
import static org.assertj.core.api.Assertions.assertThatThrownBy;

import java.util.List;
import org.junit.jupiter.api.Test;
import org.junit.jupiter.params.ParameterizedTest;
import org.junit.jupiter.params.provider.CsvSource;
import selvage.score.Cause.Kind;

class CauseWordsTest {
  @ParameterizedTest
  @CsvSource(
      delimiter = '|',
      value = {
        "TONE | Cyan | 3.25 | Cyan prints about 3.3 % too heavy in the mid-tones (± 0.5)",
        "TONE | Cyan | -3.24 | Cyan prints about 3.2 % too light in the mid-tones (± 0.5)",
        "DENSITY | Black | 6 | The solid of Black is about 6.0 % too heavy in density (± 0.5)",
        "DENSITY | Black | -6 | The solid of Black is about 6.0 % too thin in density (± 0.5)",
        "HUE | '' | 2 | All hues are turned by 2.0° (± 0.5), from red towards yellow",
        "HUE | '' | -2 | All hues are turned by 2.0° (± 0.5), from yellow towards red",
      })
  void of_causeOfOneNumber_sentence(Kind kind, String ink, double value, String sentence) {
    FoundCause cause = found(kind, ink, 0.42, value);
    assertThat(words(cause)).containsExactly(sentence + "; 42 % of the error.");
  }

  @ParameterizedTest
  @CsvSource(
      delimiter = '|',
      value = {
        "PAPER | '' | 1 | 0 | 0 | The paper is 1.0 lighter than its aim",
        "PAPER | '' | -1.2 | 0.2 | 2 | The paper is 1.2 darker and 2.0 yellower than its aim",
        "CAST | '' | 0.3 | -0.3 | -0.3 | All colours alike are 0.3 lighter, 0.3 greener and 0.3"
            + " bluer",
        "CAST | '' | 0.29 | -0.29 | 0.29 | All colours alike are a little different",
        "RECIPE | Dune Red | 0 | 3 | -4 | The ink Dune Red itself is off by ΔE*ab 5.0: its solid is"
            + " 3.0 redder and 4.0 bluer",
        "RECIPE | Dune Red | 2 | 3 | 6 | The ink Dune Red itself is off by ΔE*ab 7.0: its solid is"
            + " 2.0 lighter, 3.0 redder and 6.0 yellower",
      })
  void of_causeOfThreeNumbers_sentence(
      Kind kind, String ink, double l, double a, double b, String sentence) {
    assertThat(words(found(kind, ink, 0.02, l, a, b)))
        .containsExactly(sentence + "; 2 % of the error.");
  }

  @Test
  void of_smallShares_toldInBriefAndTogether() {
    assertThat(
            words(
                found(Kind.TONE, "Cyan", 0.9, 4),
                found(Kind.TONE, "Magenta", 0.019, 0.6),
                found(Kind.DENSITY, "Black", 0.01, -1.5),
                found(Kind.PAPER, "", 0.01, -0.5, 0, 0),
                found(Kind.CAST, "", 0.01, 0, 0.4, 0),
                found(Kind.HUE, "", 0.01, -0.7),
                found(Kind.RECIPE, "Dune Red", 0.01, 0, 0, 0.9)))
        .containsExactly(
            "Cyan prints about 4.0 % too heavy in the mid-tones (± 0.5); 90 % of the error.",
            "Each less than 2 % of the error: tone of Magenta +0.6 %; density of Black -1.5 %;"
                + " paper 0.5 darker; all colours 0.4 redder; hues turned by -0.7°; solid of Dune"
                + " Red 0.9 yellower.");
  }

  @Test
  void of_noCause_scatterOrUnexplained() {
    assertThat(CauseWords.of(List.of(), 0.49, 0.49, 1, List.of()))
        .containsExactly("No systematic error was found; the readings scatter by ΔE*ab 0.5.");
    assertThat(CauseWords.of(List.of(), 0.5, 0.5, 1, List.of()))
        .containsExactly(
            "Unexplained: the print is off by ΔE*ab 0.5 (root mean square), and none of the"
                + " causes tried accounts for it. Check that the right strip was measured and"
                + " measure again.");
  }

  @Test
  void of_muchLeft_saidSo() {
    List<FoundCause> one = List.of(found(Kind.TONE, "Cyan", 0.4, 4));
    assertThat(CauseWords.of(one, 4, 0.49, 0.3, List.of())).hasSize(1);
    assertThat(CauseWords.of(one, 4, 0.5, 0.5, List.of()).get(1))
        .isEqualTo("Unexplained: 50 % of the error (ΔE*ab 0.5): noise, or causes not tried.");
    assertThat(CauseWords.of(one, 4, 3, 0.51, List.of()).get(1))
        .isEqualTo(
            "Most of it is unexplained: 51 % of the error (ΔE*ab 3.0) has none of the causes"
                + " tried.");
  }

  @Test
  void of_oddPatches_named() {
    assertThat(CauseWords.of(List.of(), 0, 0, 0, List.of("J3")).get(1))
        .isEqualTo("J3 lies far off what these causes account for; measure it again.");
    assertThat(CauseWords.of(List.of(), 0, 0, 0, List.of("J3", "S1")).get(1))
        .isEqualTo("J3, S1 lie far off what these causes account for; measure them again.");
  }

  /** What could be in a cause's place is told after it, whatever its kind. */
  @Test
  void of_rivals_toldAfterTheCause() {
    List<Cause> rivals =
        List.of(
            new Cause(Kind.TONE, "Cyan"),
            new Cause(Kind.DENSITY, "Cyan"),
            new Cause(Kind.PAPER, ""),
            new Cause(Kind.CAST, ""),
            new Cause(Kind.HUE, ""),
            new Cause(Kind.RECIPE, "Dune Red"));
    FoundCause cause =
        new FoundCause(
            new Cause(Kind.TONE, "Black"), List.of(4.0), List.of(0.5), 0.9, rivals.subList(0, 1));
    assertThat(words(cause, found(Kind.TONE, "Magenta", 0.05, 2)))
        .containsExactly(
            "Black prints about 4.0 % too heavy in the mid-tones (± 0.5); 90 % of the error.",
            "Or else it is the tone of Cyan: these patches can't tell which.",
            "Magenta prints about 2.0 % too heavy in the mid-tones (± 0.5); 5 % of the error.");
    FoundCause many =
        new FoundCause(new Cause(Kind.TONE, "Black"), List.of(4.0), List.of(0.5), 0.9, rivals);
    assertThat(words(many).get(1))
        .isEqualTo(
            "Or else it is the tone of Cyan, or the density of Cyan, or the paper, or all colours"
                + " alike, or all hues, or the ink Dune Red itself: these patches can't tell which.");
  }

  @Test
  void few_upToThreePatches_saidSo() {
    assertThat(CauseWords.few(4)).isEmpty();
    assertThat(CauseWords.few(3))
        .containsExactly(
            "3 patches can't tell one cause from another: measure a strip with more of them.");
    assertThat(CauseWords.few(1))
        .containsExactly(
            "1 patch can't tell one cause from another: measure a strip with more of them.");
  }

  @Test
  void kind_everyOne_wordUnitAndCountOfNumbers() {
    assertThat(Kind.TONE.word()).isEqualTo("tone");
    assertThat(Kind.RECIPE.word()).isEqualTo("recipe");
    assertThat(Kind.values())
        .extracting(Kind::unit)
        .containsExactly("percent", "percent", "lab", "lab", "degrees", "lab");
    assertThat(Kind.values()).extracting(Kind::parameters).containsExactly(1, 1, 3, 3, 1, 3);
  }

  @Test
  void foundCause_valuesOfAnotherKindOrShareBeyondOne_refused() {
    Cause tone = new Cause(Kind.TONE, "Cyan");
    for (double share : new double[] {0, 1}) {
      assertThat(new FoundCause(tone, List.of(1.0), List.of(0.1), share).share()).isEqualTo(share);
    }
    assertThatThrownBy(() -> new FoundCause(tone, List.of(1.0, 2.0), List.of(1.0, 2.0), 0.5))
        .hasMessageContaining("2 values");
    assertThatThrownBy(() -> new FoundCause(tone, List.of(1.0), List.of(), 0.5))
        .isInstanceOf(IllegalArgumentException.class);
    for (double share : new double[] {-0.1, 1.1, Double.NaN}) {
      assertThatThrownBy(() -> new FoundCause(tone, List.of(1.0), List.of(0.1), share))
          .hasMessageContaining("share of " + share);
    }
  }

  private static List<String> words(FoundCause... causes) {
    return CauseWords.of(List.of(causes), 4, 0.2, 0.1, List.of());
  }

  private static FoundCause found(Kind kind, String ink, double share, double... values) {
    List<Double> numbers = java.util.Arrays.stream(values).boxed().toList();
    List<Double> margins = numbers.stream().map(number -> 0.5).toList();
    return new FoundCause(new Cause(kind, ink), numbers, margins, share);
  }
}
