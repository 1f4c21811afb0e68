package selvage.separation;

import static org.assertj.core.api.Assertions.assertThat;
import static org.assertj.core.api.Assertions.assertThatThrownBy;

import java.io.IOException;
import java.util.Arrays;
import org.junit.jupiter.api.BeforeEach;
import org.junit.jupiter.api.Test;
import org.junit.jupiter.params.ParameterizedTest;
import org.junit.jupiter.params.provider.EnumSource;
import org.junit.jupiter.params.provider.ValueSource;
import selvage.ink.Tint;

/** Identities of group compositing (ISO 32000-2, 11.4 and 11.7.4), sample by sample. */
class CompositorTest {
  private static final int SIDE = 8;
  private static final Region ALL = Region.ofRectangle(0, 0, SIDE, SIDE);
  private static final Region LEFT = Region.ofRectangle(0, 0, 5, SIDE);
  private static final Region RIGHT = Region.ofRectangle(3, 0, SIDE, SIDE);
  private static final PageGeometry.Window WINDOW = new PageGeometry.Window(0, 0, SIDE, SIDE);
  private static final Compositor.Mode PLAIN = mode(1, Blend.NORMAL);
  private static final int SPOT = 4;

  private InkSet inks;
  private Compositor direct;
  private Compositor grouped;

  @BeforeEach
  void makePages() {
    inks = new InkSet();
    assertThat(inks.slot("Dune Red")).isEqualTo(SPOT);
    direct = page();
    grouped = page();
  }

  private Compositor page() {
    BlendSpaces spaces = new BlendSpaces(new ProcessLinks(null, null));
    return new Compositor(
        inks, spaces, Layer.isolated(0, 0, SIDE, SIDE, false, Layer.Blending.CMYK));
  }

  private static Compositor.Mode mode(double alpha, Blend blend) {
    return new Compositor.Mode(null, Tint.ofFraction(alpha), blend, null);
  }

  /** An opaque state of five tints in percent. */
  private static int state(Compositor compositor, double... percents) {
    char[] row = compositor.newRow();
    row[StateTable.KINDS] = (char) ObjectKind.FILL.bit();
    row[StateTable.ALPHA] = Tint.FULL;
    for (int i = 0; i < percents.length; i++) {
      row[StateTable.INKS + i] = (char) Tint.ofPercent(percents[i]);
    }
    return compositor.table().intern(row);
  }

  private static int backdrop(Compositor compositor) {
    return state(compositor, 20, 60, 0, 10, 40);
  }

  private static int one(Compositor compositor) {
    return state(compositor, 80, 10, 30, 0, 70);
  }

  private static int two(Compositor compositor) {
    return state(compositor, 0, 50, 90, 5, 0);
  }

  /** Paints both pages' backdrops over the left part: the rest stays blank paper. */
  private void paintBackdrops() {
    direct.paint(LEFT, backdrop(direct), PLAIN);
    grouped.paint(LEFT, backdrop(grouped), PLAIN);
  }

  private void begin(boolean isolated, boolean knockout) throws IOException {
    grouped.beginGroup(WINDOW, isolated, knockout, Layer.Blending.CMYK);
  }

  private void end(Compositor.Mode mode) {
    Layer group = grouped.endGroup();
    grouped.paintGroup(group, ALL, mode);
  }

  /** Equal tints and opacities, but for a few of 51,000 steps of rounding. */
  private void assertSame() {
    for (int y = 0; y < SIDE; y++) {
      for (int x = 0; x < SIDE; x++) {
        int a = direct.layer().at(x, y);
        int b = grouped.layer().at(x, y);
        assertThat(Math.abs(direct.table().alpha(a) - grouped.table().alpha(b)))
            .as("opacity at %d, %d", x, y)
            .isLessThanOrEqualTo(4);
        for (int slot = 0; slot < inks.size(); slot++) {
          int wanted = direct.table().alpha(a) == 0 ? 0 : direct.table().tint(a, slot);
          int found = grouped.table().alpha(b) == 0 ? 0 : grouped.table().tint(b, slot);
          assertThat(Math.abs(wanted - found))
              .as("slot %d at %d, %d: %d and %d", slot, x, y, wanted, found)
              .isLessThanOrEqualTo(8);
        }
      }
    }
  }

  @ParameterizedTest
  @ValueSource(booleans = {true, false})
  void paintGroup_ofOneOpaqueObject_isTheObject(boolean isolated) throws IOException {
    paintBackdrops();
    direct.paint(RIGHT, one(direct), PLAIN);
    begin(isolated, false);
    grouped.paint(RIGHT, one(grouped), PLAIN);
    end(PLAIN);
    assertSame();
  }

  @ParameterizedTest
  @ValueSource(booleans = {true, false})
  void paintGroup_ofTranslucentObjects_isAsWithoutGroup(boolean isolated) throws IOException {
    paintBackdrops();
    for (Compositor compositor : new Compositor[] {direct, grouped}) {
      if (compositor == grouped) {
        begin(isolated, false);
      }
      compositor.paint(RIGHT, one(compositor), mode(0.5, Blend.NORMAL));
      compositor.paint(LEFT, two(compositor), mode(0.25, Blend.NORMAL));
    }
    end(PLAIN);
    assertSame();
  }

  @Test
  void paintGroup_translucentAsAWhole_showsItsTopObjectOnly() throws IOException {
    paintBackdrops();
    direct.paint(ALL, two(direct), mode(0.5, Blend.NORMAL));
    begin(true, false);
    grouped.paint(ALL, one(grouped), PLAIN);
    grouped.paint(ALL, two(grouped), PLAIN);
    end(mode(0.5, Blend.NORMAL));
    assertSame();
  }

  @ParameterizedTest
  @EnumSource(Blend.class)
  void paintGroup_notIsolated_blendsWithWhatLiesUnderIt(Blend blend) throws IOException {
    paintBackdrops();
    direct.paint(RIGHT, one(direct), mode(1, blend));
    begin(false, false);
    grouped.paint(RIGHT, one(grouped), mode(1, blend));
    end(PLAIN);
    assertSame();
  }

  @ParameterizedTest
  @EnumSource(Blend.class)
  void paintGroup_isolated_blendsWithNothing(Blend blend) throws IOException {
    paintBackdrops();
    direct.paint(RIGHT, one(direct), PLAIN);
    begin(true, false);
    grouped.paint(RIGHT, one(grouped), mode(1, blend));
    end(PLAIN);
    assertSame();
  }

  @ParameterizedTest
  @EnumSource(Blend.class)
  void paintGroup_withABlendMode_isTheObjectWithIt(Blend blend) throws IOException {
    paintBackdrops();
    direct.paint(RIGHT, one(direct), mode(0.75, blend));
    begin(true, false);
    grouped.paint(RIGHT, one(grouped), PLAIN);
    end(mode(0.75, blend));
    assertSame();
  }

  @ParameterizedTest
  @ValueSource(booleans = {true, false})
  void paintGroup_knockout_keepsTheLastObjectAlone(boolean isolated) throws IOException {
    paintBackdrops();
    direct.paint(ALL, two(direct), mode(0.5, Blend.NORMAL));
    begin(isolated, true);
    grouped.paint(ALL, one(grouped), PLAIN);
    grouped.paint(ALL, two(grouped), mode(0.5, Blend.NORMAL));
    end(PLAIN);
    assertSame();
  }

  @Test
  void paintGroup_groupInGroup_isTheObject() throws IOException {
    paintBackdrops();
    direct.paint(RIGHT, one(direct), mode(0.5, Blend.MULTIPLY));
    begin(false, false);
    begin(false, false);
    grouped.paint(RIGHT, one(grouped), mode(0.5, Blend.MULTIPLY));
    end(PLAIN);
    end(PLAIN);
    assertSame();
  }

  @Test
  void paintGroup_empty_leavesAllAsItWas() throws IOException {
    paintBackdrops();
    begin(false, false);
    end(mode(1, Blend.MULTIPLY));
    assertSame();
  }

  /** 11.7.4.2: a mode that does not keep white is Normal for spot colorants. */
  @Test
  void paint_difference_isNormalForSpots() {
    direct.paint(ALL, backdrop(direct), PLAIN);
    direct.paint(ALL, two(direct), mode(1, Blend.DIFFERENCE));
    int cell = direct.layer().at(2, 2);
    assertThat(direct.table().tint(cell, SPOT)).isZero();
    // Cyan 20 and 0 %: additive 0.8 and 1 differ by 0.2, which is 80 % ink.
    assertThat(direct.table().tint(cell, 0)).isEqualTo(Tint.ofPercent(80));
  }

  /** 11.7.4.3: what an overprinting object does not paint keeps its tint. */
  @Test
  void paint_overprint_keepsWhatIsNotPainted() {
    boolean[] painted = {true, false, false, false, false};
    direct.paint(ALL, backdrop(direct), PLAIN);
    direct.paint(ALL, one(direct), new Compositor.Mode(painted, Tint.FULL, Blend.NORMAL, null));
    int cell = direct.layer().at(2, 2);
    int[] expected = {80, 60, 0, 10, 40};
    for (int slot = 0; slot < expected.length; slot++) {
      assertThat(direct.table().tint(cell, slot)).isEqualTo(Tint.ofPercent(expected[slot]));
    }
  }

  @Test
  void paint_softMask_multipliesOpacity() {
    char[] alphas = new char[SIDE * SIDE];
    Arrays.fill(alphas, (char) (Tint.FULL / 4));
    SoftMask mask = new SoftMask(0, 0, SIDE, SIDE, alphas, (char) 0);
    paintBackdrops();
    direct.paint(ALL, one(direct), mode(0.125, Blend.NORMAL));
    grouped.paint(ALL, one(grouped), new Compositor.Mode(null, Tint.FULL / 2, Blend.NORMAL, mask));
    assertSame();
  }

  @Test
  void paint_partlyOpaque_mixesInProportion() {
    direct.paint(ALL, backdrop(direct), PLAIN);
    direct.paint(ALL, one(direct), mode(0.5, Blend.NORMAL));
    int cell = direct.layer().at(0, 0);
    int[] expected = {50, 35, 15, 5, 55};
    for (int slot = 0; slot < expected.length; slot++) {
      assertThat(direct.table().tint(cell, slot)).isEqualTo(Tint.ofPercent(expected[slot]));
    }
  }

  @Test
  void beginGroup_beyondAllMemory_isRefused() throws IOException {
    for (int i = 0; i < 11; i++) {
      grouped.beginCell(2048, 2048);
    }
    assertThatThrownBy(() -> grouped.beginCell(2048, 2048)).isInstanceOf(IOException.class);
    assertThat(grouped.depth()).isEqualTo(12);
  }
}
