package selvage.separation;

import static org.assertj.core.api.Assertions.assertThat;

import java.util.BitSet;
import java.util.Random;
import net.jqwik.api.ForAll;
import net.jqwik.api.Property;
import net.jqwik.api.constraints.IntRange;

class RegionProperties {
  private static double[] corners(Random random, int count) {
    double[] xy = new double[2 * count];
    for (int i = 0; i < xy.length; i++) {
      xy[i] = random.nextInt(10) == 0 ? random.nextInt(500) - 50 : random.nextDouble() * 500 - 50;
    }
    return xy;
  }

  private static BitSet samples(Region region) {
    BitSet samples = new BitSet();
    for (int y = 0; y < Shapes.SIDE; y++) {
      for (int x = 0; x < Shapes.SIDE; x++) {
        if (region.contains(x, y)) {
          samples.set(y * Shapes.SIDE + x);
        }
      }
    }
    return samples;
  }

  @Property(tries = 60, seed = "11")
  void intersect_anyShapes_holdsWhatBothHold(
      @ForAll long seed, @ForAll boolean evenOdd, @ForAll @IntRange(min = 3, max = 9) int count) {
    Random random = new Random(seed);
    Region a = Shapes.fill(Shapes.polygon(corners(random, count)), evenOdd);
    Region b = Shapes.fill(Shapes.polygon(corners(random, count)), !evenOdd);
    BitSet both = samples(a);
    both.and(samples(b));
    Region intersection = a.intersect(b);
    assertThat(samples(intersection)).isEqualTo(both);
    assertThat(intersection.count()).isEqualTo(both.cardinality());
    assertThat(samples(b.intersect(a))).isEqualTo(both);
  }

  @Property(tries = 60, seed = "14")
  void without_anyShapes_holdsWhatTheOtherLacks(
      @ForAll long seed, @ForAll boolean evenOdd, @ForAll @IntRange(min = 3, max = 9) int count) {
    Random random = new Random(seed);
    Region a = Shapes.fill(Shapes.polygon(corners(random, count)), evenOdd);
    Region b = Shapes.fill(Shapes.polygon(corners(random, count)), !evenOdd);
    BitSet rest = samples(a);
    rest.andNot(samples(b));
    Region without = a.without(b);
    assertThat(samples(without)).isEqualTo(rest);
    assertThat(without.count()).isEqualTo(rest.cardinality());
  }

  /** A sample on a shared edge belongs to one of the two, never to both or none. */
  @Property(tries = 60, seed = "12")
  void fill_shapeCutInTwo_partsShareNoSample(@ForAll long seed) {
    Random random = new Random(seed);
    double[] t = corners(random, 3);
    double cut = random.nextDouble();
    double x = t[2] + cut * (t[4] - t[2]);
    double y = t[3] + cut * (t[5] - t[3]);
    Region one = Shapes.fill(Shapes.polygon(t[0], t[1], t[2], t[3], x, y), false);
    Region other = Shapes.fill(Shapes.polygon(t[0], t[1], x, y, t[4], t[5]), false);
    assertThat(one.intersect(other).isEmpty()).isTrue();
    // The cut point is rounded, so that the outer edge may bend by less than a sample's width.
    long whole = Shapes.fill(Shapes.polygon(t), false).count();
    assertThat(Math.abs(one.count() + other.count() - whole)).isLessThanOrEqualTo(1);
  }

  @Property(tries = 40, seed = "13")
  void fill_pathDrawnTwice_isTheSameByNonZeroAndNothingByEvenOdd(@ForAll long seed) {
    var path = Shapes.polygon(corners(new Random(seed), 7));
    var twice = Shapes.polygon(corners(new Random(seed), 7));
    twice.append(path, false);
    assertThat(samples(Shapes.fill(twice, false))).isEqualTo(samples(Shapes.fill(path, false)));
    assertThat(Shapes.fill(twice, true).isEmpty()).isTrue();
  }
}
