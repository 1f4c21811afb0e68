package selvage.separation;

import static org.assertj.core.api.Assertions.assertThat;

import java.awt.geom.AffineTransform;
import java.awt.geom.Path2D;
import org.assertj.core.data.Offset;
import org.junit.jupiter.api.Test;
import org.junit.jupiter.params.ParameterizedTest;
import org.junit.jupiter.params.provider.CsvSource;

/** Areas of strokes, from their geometry (ISO 32000-2, 8.4.3). */
class StrokerTest {
  private static final double[] SOLID = {};
  private static final AffineTransform SAME = new AffineTransform();

  private static Stroker.Pen pen(double width, int cap, int join) {
    return new Stroker.Pen(width, cap, join, 10, SOLID, 0);
  }

  private static double area(Path2D path, Stroker.Pen pen) {
    return Shapes.stroke(path, pen, SAME).count();
  }

  @ParameterizedTest
  @CsvSource({"0, 0", "1, 1256.6", "2, 1600"})
  void stroke_lineWithCaps_addsTheCapsToTheLine(int cap, double both) {
    double area = area(Shapes.line(100, 200, 300, 200), pen(40, cap, Stroker.Pen.BEVEL));
    assertThat(area).isCloseTo(200 * 40 + both, Offset.offset(25.0));
  }

  /** Two arms of 100 by 40 share a square of 20; the corner outside adds what the join is. */
  @ParameterizedTest
  @CsvSource({"0, 400", "1, 314.2", "2, 200"})
  void stroke_rightAngle_addsTheJoin(int join, double corner) {
    for (double end : new double[] {200, 0}) {
      Path2D path = Shapes.line(100, 100, 200, 100, 200, end);
      assertThat(area(path, pen(40, Stroker.Pen.BUTT, join)))
          .isCloseTo(2 * 100 * 40 - 400 + corner, Offset.offset(25.0));
    }
  }

  /** At a right angle the miter is √2 widths long. */
  @ParameterizedTest
  @CsvSource({"1.42, 400", "1.41, 200"})
  void stroke_miterLimit_decidesBetweenMiterAndBevel(double limit, double corner) {
    Path2D path = Shapes.line(100, 100, 200, 100, 200, 200);
    Stroker.Pen pen = new Stroker.Pen(40, Stroker.Pen.BUTT, Stroker.Pen.MITER, limit, SOLID, 0);
    assertThat(area(path, pen)).isCloseTo(2 * 100 * 40 - 400 + corner, Offset.offset(25.0));
  }

  @Test
  void stroke_closedSquare_isItsFrame() {
    Path2D square = Shapes.polygon(100, 100, 300, 100, 300, 300, 100, 300);
    assertThat(area(square, pen(40, Stroker.Pen.BUTT, Stroker.Pen.MITER)))
        .isEqualTo(240 * 240 - 160 * 160);
  }

  /** On 190 units: 30 on and 20 off, begun at a phase. */
  @ParameterizedTest
  @CsvSource({"0, 120", "25, 110", "40, 120", "75, 110", "-25, 110"})
  void stroke_dashes_areDrawnFromTheirPhase(double phase, double length) {
    Stroker.Pen pen =
        new Stroker.Pen(40, Stroker.Pen.BUTT, Stroker.Pen.MITER, 10, new double[] {30, 20}, phase);
    assertThat(area(Shapes.line(100, 200, 290, 200), pen)).isEqualTo(length * 40);
  }

  /** 30 on, 30 off, and so on, over 150 units. */
  @ParameterizedTest
  @CsvSource({"0, 90", "30, 60", "60, 90", "45, 75"})
  void stroke_oddDashes_alternateInTheNextCycle(double phase, double length) {
    Stroker.Pen pen =
        new Stroker.Pen(40, Stroker.Pen.BUTT, Stroker.Pen.MITER, 10, new double[] {30}, phase);
    assertThat(area(Shapes.line(100, 200, 250, 200), pen)).isEqualTo(length * 40);
  }

  @Test
  void stroke_dashesThatSumToNothing_areASolidLine() {
    Stroker.Pen pen =
        new Stroker.Pen(40, Stroker.Pen.BUTT, Stroker.Pen.MITER, 10, new double[] {0, 0}, 0);
    assertThat(area(Shapes.line(100, 200, 300, 200), pen)).isEqualTo(200 * 40);
  }

  @Test
  void stroke_tooManyDashes_areGivenUp() {
    EdgeList edges = Shapes.edges();
    Stroker stroker =
        new Stroker(edges, new Stroker.Pen(40, 0, 0, 10, new double[] {1e-7, 1e-7}, 0), SAME);
    Flattener.walk(Shapes.line(100, 200, 300, 200), SAME, stroker);
    assertThat(stroker.gaveUpDashes()).isTrue();
    assertThat(edges.toRegion(false).count()).isEqualTo(200 * 40);
  }

  @Test
  void stroke_unevenScale_widensThePenAcross() {
    AffineTransform wide = AffineTransform.getScaleInstance(3, 1);
    Stroker.Pen pen = pen(10, Stroker.Pen.BUTT, Stroker.Pen.MITER);
    Path2D upright = Shapes.line(200, 100, 200, 200);
    Path2D level = Shapes.line(100, 200, 200, 200);
    assertThat(Shapes.stroke(upright, pen, wide).count()).isEqualTo(100 * 30);
    assertThat(Shapes.stroke(level, pen, wide).count()).isEqualTo(100 * 10);
  }

  @Test
  void stroke_widthOfZero_isOneSample() {
    assertThat(area(Shapes.line(100, 200.3, 300, 200.3), pen(0, 0, 0))).isEqualTo(200);
  }

  @ParameterizedTest
  @CsvSource({"0, 0", "1, 1256.6", "2, 1600"})
  void stroke_pointWithoutLength_isItsCap(int cap, double expected) {
    assertThat(area(Shapes.line(200, 200, 200, 200), pen(40, cap, 0)))
        .isCloseTo(expected, Offset.offset(10.0));
  }

  @Test
  void stroke_matrixThatIsNone_stillEnds() {
    AffineTransform none = new AffineTransform(Double.NaN, 0, 0, 0, 0, 0);
    Region region = Shapes.stroke(Shapes.line(100, 200, 300, 200), pen(40, 0, 0), none);
    assertThat(region.count()).isEqualTo(200);
  }
}
