package selvage.separation;

import static org.assertj.core.api.Assertions.assertThat;

import java.io.IOException;
import java.util.Map;
import org.assertj.core.data.Offset;
import org.junit.jupiter.api.Test;
import selvage.color.AimModel;
import selvage.color.ReferenceConditions;
import selvage.ink.InkMixture;
import selvage.ink.Tint;
import selvage.survey.Census;
import selvage.survey.CensusBuilder;
import selvage.survey.ColorMap;

/** The census of bands made by hand; beside them, since only this package can make one. */
class CensusBuilderTest {
  private static final AimModel AIMS =
      new AimModel(ReferenceConditions.defaultCondition(), Map.of());

  private final InkSet inks = new InkSet();
  private final StateTable table = new StateTable(4);
  private final BlendSpaces spaces = new BlendSpaces(new ProcessLinks(null, null));

  private int state(ObjectKind kind, int c, int m, int y, int k) {
    char[] row = table.newRow();
    row[StateTable.KINDS] = (char) kind.bit();
    row[StateTable.ALPHA] = Tint.FULL;
    row[StateTable.INKS] = (char) c;
    row[StateTable.INKS + 1] = (char) m;
    row[StateTable.INKS + 2] = (char) y;
    row[StateTable.INKS + 3] = (char) k;
    return table.intern(row);
  }

  private Band band(int firstRow, Layer layer) {
    return new Band(firstRow, layer, table, inks, spaces);
  }

  private static Layer layer(int top, int width, int bottom) {
    return Layer.isolated(0, top, width, bottom, false, Layer.Blending.CMYK);
  }

  private static long samples(Census census, InkMixture mixture) {
    long samples = 0;
    for (int row = 0; row < census.size(); row++) {
      samples += census.mixture(row).equals(mixture) ? census.samples(row) : 0;
    }
    return samples;
  }

  @Test
  void build_twoBands_countsTheWindowOnly() throws IOException {
    int solid = state(ObjectKind.FILL, Tint.FULL, 0, 0, 0);
    int third = state(ObjectKind.TEXT, 0, 0, 0, Tint.ofPercent(33));
    CensusBuilder builder = new CensusBuilder(new PageGeometry.Window(1, 1, 9, 7));
    Layer upper = layer(0, 10, 4);
    upper.fill(0, 10, 0, third); // outside the window
    upper.fill(0, 5, 1, solid);
    upper.fill(0, 10, 2, solid);
    builder.take(band(0, upper));
    Layer lower = layer(4, 10, 8);
    lower.fill(8, 10, 4, third);
    lower.fill(0, 10, 7, third); // outside the window
    builder.take(band(4, lower));
    Census census = builder.build(AIMS);
    assertThat(census.totalSamples()).isEqualTo(8 * 6);
    assertThat(samples(census, InkMixture.ofPercents(Map.of("Cyan", 100.0)))).isEqualTo(4 + 8);
    assertThat(samples(census, InkMixture.ofPercents(Map.of("Black", 33.0)))).isEqualTo(1);
    assertThat(samples(census, InkMixture.PAPER)).isEqualTo(48 - 13);
    assertThat(census.isPaper(0)).as("largest area first").isTrue();
    assertThat(census.kindBits(2)).isEqualTo(ObjectKind.TEXT.bit());
    assertThat(census.meanPercent(0)).isEqualTo(25);
    assertThat(census.inkedPercent()).isCloseTo(100.0 * 13 / 48, within());
    assertThat(builder.isCoarse()).isFalse();
  }

  private static Offset<Double> within() {
    return Offset.offset(1e-9);
  }

  @Test
  void build_mapOfStepOne_holdsEverySample() throws IOException {
    int solid = state(ObjectKind.FILL, Tint.FULL, 0, 0, 0);
    CensusBuilder builder = new CensusBuilder(new PageGeometry.Window(1, 0, 10, 7), 1);
    Layer upper = layer(0, 10, 3);
    upper.fill(2, 5, 1, solid);
    builder.take(band(0, upper));
    Layer lower = layer(3, 10, 8);
    lower.fill(9, 10, 6, solid);
    builder.take(band(3, lower));
    Census census = builder.build(AIMS);
    ColorMap map = census.map().orElseThrow();
    assertThat(map.step()).isEqualTo(1);
    assertThat(map.columns()).isEqualTo(9);
    assertThat(map.lines()).isEqualTo(7);
    for (int line = 0; line < 7; line++) {
      for (int column = 0; column < 9; column++) {
        boolean inked = (line == 1 && column >= 1 && column < 4) || (line == 6 && column == 8);
        assertThat(census.isPaper(map.rowAt(column, line)))
            .as("column %d, line %d", column, line)
            .isEqualTo(!inked);
      }
    }
  }

  @Test
  void build_sameMixtureByTwoKinds_isOneRowOfBoth() throws IOException {
    CensusBuilder builder = new CensusBuilder(new PageGeometry.Window(0, 0, 4, 1));
    Layer layer = layer(0, 4, 1);
    layer.fill(0, 2, 0, state(ObjectKind.FILL, 100, 0, 0, 0));
    layer.fill(2, 4, 0, state(ObjectKind.IMAGE, 100, 0, 0, 0));
    builder.take(band(0, layer));
    Census census = builder.build(AIMS);
    assertThat(census.size()).isEqualTo(1);
    assertThat(census.samples(0)).isEqualTo(4);
    assertThat(census.kindBits(0)).isEqualTo(ObjectKind.FILL.bit() | ObjectKind.IMAGE.bit());
  }

  @Test
  void build_areasOfAllSizes_fallInOrder() throws IOException {
    int width = 1000;
    CensusBuilder builder = new CensusBuilder(new PageGeometry.Window(0, 0, width, 40));
    Layer layer = layer(0, width, 40);
    for (int y = 0; y < 40; y++) {
      int length = 1 + y * 25 % 997;
      layer.fill(0, length, y, state(ObjectKind.FILL, 200 * (y + 1), 0, 0, 0));
    }
    builder.take(band(0, layer));
    Census census = builder.build(AIMS);
    assertThat(census.totalSamples()).isEqualTo(40L * width);
    for (int row = 1; row < census.size(); row++) {
      assertThat(census.samples(row)).isLessThanOrEqualTo(census.samples(row - 1));
    }
  }

  /** More mixtures than are kept: those of images are counted coarser, nothing else changes. */
  @Test
  void build_photographOfAMillionMixtures_keepsTotalsAndAuthoredTints() throws IOException {
    int side = 950;
    CensusBuilder builder = new CensusBuilder(new PageGeometry.Window(0, 0, side, side));
    Layer layer = layer(0, side, side);
    long sum = 0;
    for (int i = 0; i < side * side; i++) {
      int c = i % 251 * 203;
      int m = i / 251 % 251 * 199;
      int y = i / (251 * 251) * 3001;
      layer.cells[i] = state(ObjectKind.IMAGE, c, m, y, 0);
      sum += i < 5 * side ? 0 : c;
    }
    int authored = state(ObjectKind.FILL, Tint.ofPercent(33.3), 0, 0, Tint.ofPercent(0.1));
    for (int y = 0; y < 5; y++) {
      layer.fill(0, side, y, authored);
    }
    builder.take(band(0, layer));
    assertThat(builder.isCoarse()).isTrue();
    Census census = builder.build(AIMS);
    assertThat(census.size()).isLessThan(800_000);
    assertThat(census.totalSamples()).isEqualTo((long) side * side);
    InkMixture mixture = InkMixture.ofPercents(Map.of("Cyan", 33.3, "Black", 0.1));
    assertThat(samples(census, mixture)).isEqualTo(5L * side);
    double mean = 100.0 * (sum + 5.0 * side * Tint.ofPercent(33.3)) / side / side / Tint.FULL;
    assertThat(census.meanPercent(0)).isCloseTo(mean, Offset.offset(0.2));
  }
}
