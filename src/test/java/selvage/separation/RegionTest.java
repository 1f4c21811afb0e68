package selvage.separation;

import static org.assertj.core.api.Assertions.assertThat;

import java.awt.geom.Path2D;
import org.assertj.core.data.Offset;
import org.assertj.core.data.Percentage;
import org.junit.jupiter.api.Test;

/** Areas of filled shapes, from their geometry. */
class RegionTest {
  private static Path2D squares(boolean sameWay) {
    Path2D path = Shapes.polygon(10, 10, 50, 10, 50, 50, 10, 50);
    path.append(
        sameWay
            ? Shapes.polygon(30, 30, 70, 30, 70, 70, 30, 70)
            : Shapes.polygon(30, 30, 30, 70, 70, 70, 70, 30),
        false);
    return path;
  }

  @Test
  void fill_rectangleOnSampleEdges_holdsItsSamples() {
    Region region = Shapes.fill(Shapes.polygon(10, 20, 25, 20, 25, 27, 10, 27), false);
    assertThat(region.count()).isEqualTo(15 * 7);
    assertThat(region.left()).isEqualTo(10);
    assertThat(region.right()).isEqualTo(25);
    assertThat(region.top()).isEqualTo(20);
    assertThat(region.bottom()).isEqualTo(27);
    assertThat(region.contains(10, 20)).isTrue();
    assertThat(region.contains(25, 20)).isFalse();
    assertThat(region.contains(10, 27)).isFalse();
  }

  @Test
  void fill_rectangleBetweenSampleCentres_holdsTheCentresInside() {
    // Centres at 10.5 … 13.5 lie between 10.5 and 14.4, the first of them on the edge.
    Region region = Shapes.fill(Shapes.polygon(10.5, 10, 14.4, 10, 14.4, 11, 10.5, 11), false);
    assertThat(region.count()).isEqualTo(4);
  }

  @Test
  void fill_triangle_hasItsArea() {
    Region region = Shapes.fill(Shapes.polygon(0, 0, 300, 0, 0, 300), false);
    assertThat((double) region.count()).isCloseTo(45_000, Offset.offset(150.0));
  }

  @Test
  void fill_disc_hasItsArea() {
    double[] xy = new double[720];
    for (int i = 0; i < 360; i++) {
      xy[2 * i] = 200 + 150 * Math.cos(Math.toRadians(i));
      xy[2 * i + 1] = 200 + 150 * Math.sin(Math.toRadians(i));
    }
    // A regular polygon of n corners: n/2 · r² · sin(2π/n).
    double area = 180 * 150 * 150 * Math.sin(Math.PI / 180);
    assertThat((double) Shapes.fill(Shapes.polygon(xy), false).count())
        .isCloseTo(area, Percentage.withPercentage(0.1));
  }

  @Test
  void fill_overlapWoundTheSameWay_dependsOnTheRule() {
    assertThat(Shapes.fill(squares(true), false).count()).isEqualTo(2 * 1600 - 400);
    assertThat(Shapes.fill(squares(true), true).count()).isEqualTo(2 * 1600 - 800);
  }

  @Test
  void fill_overlapWoundTheOtherWay_isAHoleByBothRules() {
    assertThat(Shapes.fill(squares(false), false).count()).isEqualTo(2 * 1600 - 800);
    assertThat(Shapes.fill(squares(false), true).count()).isEqualTo(2 * 1600 - 800);
  }

  @Test
  void fill_shapeBeyondTheWindow_fillsTheWindow() {
    Region region = Shapes.fill(Shapes.polygon(-1e7, -1e7, 1e7, -1e7, 1e7, 1e7, -1e7, 1e7), false);
    assertThat(region.count()).isEqualTo((long) Shapes.SIDE * Shapes.SIDE);
  }

  @Test
  void add_coordinatesThatAreNoNumbers_areLeftOut() {
    EdgeList edges = Shapes.edges();
    edges.add(Double.NaN, 0, 10, 10);
    edges.add(0, Double.NaN, 10, 10);
    assertThat(edges.isEmpty()).isTrue();
    edges.add(5, Double.NEGATIVE_INFINITY, 5, Double.POSITIVE_INFINITY);
    edges.add(9, Double.POSITIVE_INFINITY, 9, Double.NEGATIVE_INFINITY);
    assertThat(edges.toRegion(false).count()).isEqualTo(4L * Shapes.SIDE);
  }

  @Test
  void toRegion_millionsOfCrossings_keepWindingAndParity() {
    // 25,001 edges down and 25,000 up in the same place: what is left is one edge down.
    EdgeList edges = Shapes.edges();
    for (int i = 0; i < 25_000; i++) {
      edges.add(100, 0, 100, 400);
      edges.add(100, 400, 100, 0);
    }
    edges.add(100, 0, 100, 400);
    edges.add(300, 400, 300, 0);
    assertThat(edges.toRegion(false).count()).isEqualTo(200L * 400);
    assertThat(edges.toRegion(true).count()).isEqualTo(200L * 400);
  }

  @Test
  void toRegion_windingBeyondItsField_keepsItsParity() {
    // Other edges before shift the moment at which crossings are made one.
    for (int before = 0; before < 4; before++) {
      int times = 12_000 + before / 2;
      EdgeList edges = Shapes.edges();
      for (int i = 0; i < before; i++) {
        edges.add(350, 0, 350, 400);
        edges.add(350, 400, 350, 0);
      }
      for (int i = 0; i < times; i++) {
        edges.add(100, 0, 100, 400);
        edges.add(300, 400, 300, 0);
      }
      assertThat(edges.toRegion(false).count()).isEqualTo(200L * 400);
      assertThat(edges.toRegion(true).count()).isEqualTo(times % 2 == 0 ? 0 : 200L * 400);
    }
  }

  @Test
  void intersect_ofDisjointRegions_isEmpty() {
    Region a = Region.ofRectangle(0, 0, 10, 10);
    assertThat(a.intersect(Region.ofRectangle(10, 0, 20, 10)).isEmpty()).isTrue();
    assertThat(a.intersect(Region.ofRectangle(0, 10, 10, 20)).isEmpty()).isTrue();
    assertThat(a.intersect(Region.EMPTY).isEmpty()).isTrue();
    assertThat(Region.ofRectangle(3, 3, 3, 9).isEmpty()).isTrue();
  }
}
