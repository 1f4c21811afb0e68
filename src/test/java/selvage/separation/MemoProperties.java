package selvage.separation;

import static org.assertj.core.api.Assertions.assertThat;

import java.util.HashMap;
import java.util.Map;
import java.util.Random;
import net.jqwik.api.ForAll;
import net.jqwik.api.Property;
import net.jqwik.api.constraints.IntRange;

/** Memos against the JDK's map. */
class MemoProperties {
  @Property(tries = 50, seed = "31")
  void memo_anyKeys_remembersLikeAMap(
      @ForAll long seed, @ForAll @IntRange(min = 1, max = 5000) int count) {
    Random random = new Random(seed);
    Memo memo = new Memo();
    Map<Long, Integer> map = new HashMap<>();
    for (int i = 0; i < count; i++) {
      long key = random.nextInt(4) == 0 ? random.nextInt(100) : random.nextLong() >>> 1;
      int value = random.nextInt(Integer.MAX_VALUE);
      memo.put(key, value);
      map.put(key, value);
      if (random.nextInt(2000) == 0) {
        memo.clear();
        map.clear();
      }
    }
    map.forEach((key, value) -> assertThat(memo.get(key)).isEqualTo(value));
    for (int i = 0; i < 100; i++) {
      long key = random.nextLong() >>> 1;
      assertThat(memo.get(key)).isEqualTo(map.getOrDefault(key, Memo.ABSENT));
    }
  }

  @Property(tries = 50, seed = "32")
  void pixelMemo_anyPixels_remembersLikeAMap(
      @ForAll long seed, @ForAll @IntRange(min = 1, max = 20_000) int count) {
    Random random = new Random(seed);
    PixelMemo memo = new PixelMemo();
    Map<Integer, Integer> map = new HashMap<>();
    for (int i = 0; i < count; i++) {
      // Neighbouring values, as photographs have, and negative ones, as four bytes may be.
      int key = random.nextBoolean() ? random.nextInt(3000) - 1500 : random.nextInt();
      int state = random.nextInt(1 << 24);
      if (map.putIfAbsent(key, state) == null) {
        memo.put(key, state);
      }
    }
    map.forEach((key, state) -> assertThat(memo.get(key)).isEqualTo(state));
    for (int i = 0; i < 100; i++) {
      int key = random.nextInt();
      assertThat(memo.get(key)).isEqualTo(map.getOrDefault(key, PixelMemo.ABSENT));
    }
  }
}
