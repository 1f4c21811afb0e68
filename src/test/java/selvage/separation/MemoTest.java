package selvage.separation;

import static org.assertj.core.api.Assertions.assertThat;

import org.junit.jupiter.api.Test;

class MemoTest {
  @Test
  void put_moreThanItHolds_forgetsButNeverErrs() {
    Memo memo = new Memo();
    for (int i = 0; i < 1_200_000; i++) {
      memo.put(i, i);
    }
    int remembered = 0;
    for (int i = 0; i < 1_200_000; i++) {
      int value = memo.get(i);
      if (value != Memo.ABSENT) {
        assertThat(value).isEqualTo(i);
        remembered++;
      }
    }
    assertThat(remembered).isBetween(1, 1 << 20);
    assertThat(memo.get(1_199_999)).isEqualTo(1_199_999);
  }
}
