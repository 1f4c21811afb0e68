package selvage.survey;

import static org.assertj.core.api.Assertions.assertThat;
import static org.assertj.core.api.Assertions.assertThatThrownBy;

import org.junit.jupiter.api.Test;
import org.junit.jupiter.params.ParameterizedTest;
import org.junit.jupiter.params.provider.ValueSource;
import selvage.finding.InputException;

class PageRangesTest {
  @Test
  void parse_listsAndRanges_riseWithoutRepeats() throws InputException {
    assertThat(PageRanges.parse("7,1-3, 2 - 4", 9)).containsExactly(1, 2, 3, 4, 7);
    assertThat(PageRanges.parse("5", 9)).containsExactly(5);
    assertThat(PageRanges.parse("9-9", 9)).containsExactly(9);
  }

  @Test
  void parse_nothing_isAll() throws InputException {
    assertThat(PageRanges.parse(null, 3)).containsExactly(1, 2, 3);
    assertThat(PageRanges.parse("  ", 2)).containsExactly(1, 2);
  }

  @ParameterizedTest
  @ValueSource(strings = {"0", "10", "3-1", "1-", "-3", "a", "1,,2", "1-2-3", "1.5", "99999999999"})
  void parse_whatIsNoPageHere_isRefused(String text) {
    assertThatThrownBy(() -> PageRanges.parse(text, 9))
        .isInstanceOf(InputException.class)
        .hasMessageContaining("--pages " + text);
  }
}
