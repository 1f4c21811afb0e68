package selvage.separation;

import static org.assertj.core.api.Assertions.assertThat;

import java.util.List;
import org.junit.jupiter.api.Test;

class StateTableTest {
  private static int intern(StateTable table, int... values) {
    char[] row = table.newRow();
    for (int i = 0; i < values.length; i++) {
      row[i] = (char) values[i];
    }
    return table.intern(row);
  }

  @Test
  void intern_equalRows_areOneState() {
    StateTable table = new StateTable(4);
    int a = intern(table, 1, 51_000, 100, 200, 300, 400);
    int b = intern(table, 1, 51_000, 100, 200, 300, 401);
    assertThat(intern(table, 1, 51_000, 100, 200, 300, 400)).isEqualTo(a).isNotEqualTo(b);
    assertThat(intern(table)).isEqualTo(StateTable.BLANK);
    assertThat(table.kinds(a)).isEqualTo(1);
    assertThat(table.alpha(a)).isEqualTo(51_000);
    assertThat(table.tint(b, 3)).isEqualTo(401);
  }

  @Test
  void growTo_moreSlots_keepsStatesAndTheirNumbers() {
    StateTable table = new StateTable(4);
    int a = intern(table, 1, 51_000, 1, 2, 3, 4);
    table.growTo(6);
    assertThat(table.slots()).isEqualTo(6);
    assertThat(table.tint(a, 3)).isEqualTo(4);
    assertThat(table.tint(a, 5)).isZero();
    assertThat(intern(table, 1, 51_000, 1, 2, 3, 4)).isEqualTo(a);
    assertThat(intern(table, 1, 51_000, 1, 2, 3, 4, 0, 9)).isNotEqualTo(a);
  }

  @Test
  void compact_unusedStates_areDroppedFromAllRasters() {
    StateTable table = new StateTable(4);
    int[] numbers = new int[5000];
    for (int i = 0; i < numbers.length; i++) {
      numbers[i] = intern(table, 1, 51_000, i, 7);
    }
    int[] first = {numbers[10], StateTable.BLANK, numbers[4000]};
    int[] second = {numbers[4000], numbers[77]};
    table.compact(List.of(first, second));
    assertThat(table.size()).isEqualTo(4);
    assertThat(table.tint(first[0], 0)).isEqualTo(10);
    assertThat(first[1]).isEqualTo(StateTable.BLANK);
    assertThat(table.tint(first[2], 0)).isEqualTo(4000);
    assertThat(second[0]).isEqualTo(first[2]);
    assertThat(table.tint(second[1], 0)).isEqualTo(77);
    assertThat(intern(table, 1, 51_000, 77, 7)).isEqualTo(second[1]);
    assertThat(intern(table, 1, 51_000, 78, 7)).isEqualTo(4);
  }
}
