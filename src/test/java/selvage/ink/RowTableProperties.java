package selvage.ink;

import static org.assertj.core.api.Assertions.assertThat;

import java.util.ArrayList;
import java.util.Arrays;
import java.util.HashMap;
import java.util.List;
import java.util.Map;
import java.util.Random;
import net.jqwik.api.ForAll;
import net.jqwik.api.Property;
import net.jqwik.api.constraints.IntRange;

/** The table against the JDK's map, with rows of few values so that many are equal. */
class RowTableProperties {
  private static char[] randomRow(Random random, int stride) {
    char[] row = new char[stride];
    for (int i = 0; i < stride; i++) {
      row[i] = (char) (random.nextInt(3) == 0 ? random.nextInt(51_001) : random.nextInt(4));
    }
    return row;
  }

  @Property(tries = 60, seed = "41")
  void intern_anyRows_numbersLikeAMap(
      @ForAll long seed,
      @ForAll @IntRange(min = 1, max = 7) int stride,
      @ForAll @IntRange(min = 0, max = 6000) int count) {
    Random random = new Random(seed);
    RowTable table = new RowTable(stride);
    Map<String, Integer> map = new HashMap<>();
    for (int i = 0; i < count; i++) {
      char[] row = randomRow(random, stride);
      Integer known = map.putIfAbsent(new String(row), map.size());
      assertThat(table.intern(row)).isEqualTo(known == null ? map.size() - 1 : known);
    }
    assertThat(table.size()).isEqualTo(map.size());
    char[] row = table.newRow();
    map.forEach(
        (values, number) -> {
          table.read(number, row);
          assertThat(new String(row)).isEqualTo(values);
        });
  }

  @Property(tries = 60, seed = "42")
  void retain_anyRows_keepsTheirOrderAndValues(
      @ForAll long seed, @ForAll @IntRange(min = 1, max = 3000) int count) {
    Random random = new Random(seed);
    RowTable table = new RowTable(4);
    for (int i = 0; i < count; i++) {
      table.intern(randomRow(random, 4));
    }
    boolean[] used = new boolean[table.size()];
    List<String> kept = new ArrayList<>();
    char[] row = table.newRow();
    for (int i = 0; i < used.length; i++) {
      used[i] = random.nextInt(3) > 0;
      if (used[i]) {
        table.read(i, row);
        kept.add(new String(row));
      }
    }
    int[] renumbered = table.retain(used);
    assertThat(table.size()).isEqualTo(kept.size());
    int at = 0;
    for (int i = 0; i < used.length; i++) {
      if (used[i]) {
        assertThat(renumbered[i]).isEqualTo(at);
        assertThat(table.intern(kept.get(at).toCharArray())).isEqualTo(at++);
      }
    }
  }

  @Property(tries = 60, seed = "43")
  void widen_anyRows_addsZerosAndKeepsNumbers(
      @ForAll long seed,
      @ForAll @IntRange(min = 0, max = 3000) int count,
      @ForAll @IntRange(min = 0, max = 5) int more) {
    Random random = new Random(seed);
    RowTable table = new RowTable(3);
    List<char[]> rows = new ArrayList<>();
    for (int i = 0; i < count; i++) {
      char[] row = randomRow(random, 3);
      if (table.intern(row) == rows.size()) {
        rows.add(row);
      }
    }
    table.widen(3 + more);
    table.reserve(2 * count);
    assertThat(table.stride()).isEqualTo(3 + more);
    for (int i = 0; i < rows.size(); i++) {
      assertThat(table.intern(Arrays.copyOf(rows.get(i), 3 + more))).isEqualTo(i);
    }
    assertThat(table.size()).isEqualTo(rows.size());
  }
}
