package selvage.web;

import static org.assertj.core.api.Assertions.assertThat;

import java.util.List;
import java.util.OptionalDouble;
import org.junit.jupiter.api.Test;
import org.junit.jupiter.params.ParameterizedTest;
import org.junit.jupiter.params.provider.EnumSource;
import selvage.ledger.LedgerFixture;
import selvage.measurement.LabShift;
import selvage.report.FiledScore;

class PatchSortTest {
  private static List<PatchRow> rows() throws Exception {
    FiledScore score =
        FiledScore.parse("a.json", LedgerFixture.scoreJson(new LabShift(1, 2, 3), "AAAA-0001"));
    List<FiledScore.PatchResult> patches = score.strips().get(0).patches();
    return List.of(
        new PatchRow("a", "paper", OptionalDouble.of(1), patches.get(0)),
        new PatchRow("b", "C40", OptionalDouble.empty(), patches.get(1)),
        new PatchRow("c", "M10", OptionalDouble.of(30), patches.get(2)));
  }

  private static List<String> anchors(String wish) throws Exception {
    return PatchSort.of(wish).sorted(rows()).stream().map(PatchRow::anchor).toList();
  }

  @Test
  void sorted_byShare_whatHasNoneIsLeast() throws Exception {
    assertThat(anchors("share")).containsExactly("b", "a", "c");
    assertThat(anchors("-share")).containsExactly("c", "a", "b");
    assertThat(anchors("build")).containsExactly("b", "c", "a");
  }

  @Test
  void of_noColumn_isTheStripsOrder() throws Exception {
    assertThat(anchors("lab")).containsExactly("a", "b", "c");
    assertThat(anchors(null)).containsExactly("a", "b", "c");
    assertThat(anchors("-")).containsExactly("a", "b", "c");
  }

  @ParameterizedTest
  @EnumSource(PatchColumn.class)
  void next_pressedTwice_turnsTheOrderRound(PatchColumn column) {
    String first = PatchSort.NONE.next(column);
    PatchSort sort = PatchSort.of(first);

    assertThat(sort.state(column)).isEqualTo(column.numeric() ? "descending" : "ascending");
    assertThat(PatchSort.of(sort.next(column)).descending()).isNotEqualTo(sort.descending());
  }
}
