package selvage.separation;

import java.io.IOException;
import java.util.NavigableMap;
import java.util.TreeMap;
import selvage.color.AimSource;
import selvage.color.Lab;
import selvage.color.ReferenceCondition;
import selvage.color.ReferenceWhite;
import selvage.color.SourceColor;
import selvage.color.SpotInk;
import selvage.color.Xyz;
import selvage.ink.Tint;

/** The colour of a spot as its alternate colour and tint transform give it. */
final class AlternateColor {
  private static final int STEPS = 20;
  private static final int MOST_INPUTS = 8;

  private final SpaceReader spaces;
  private final ReferenceCondition condition;

  AlternateColor(SpaceReader spaces, ReferenceCondition condition) {
    this.spaces = spaces;
    this.condition = condition;
  }

  /**
   * @param alternate may be null, as for a colorant that only a DeviceN of very many names
   */
  SpotInk of(String name, SpotAlternates.Alternate alternate) {
    NavigableMap<Double, Lab> ramp = ramp(alternate, STEPS);
    if (ramp.isEmpty()) {
      // Nothing is known of the colour: a solid as dark as black at half tint stands for it.
      ramp.put(100.0, condition.aim(0, 0, 0, 50).lab());
    }
    return new SpotInk(name, ramp, AimSource.ALTERNATE);
  }

  /**
   * The colours of equal steps of tint, without the paper.
   *
   * @param alternate may be null
   * @return Lab by percent; empty where they can't be had
   */
  NavigableMap<Double, Lab> ramp(SpotAlternates.Alternate alternate, int steps) {
    NavigableMap<Double, Lab> ramp = new TreeMap<>();
    if (alternate == null || alternate.components() > MOST_INPUTS) {
      return ramp;
    }
    try {
      SourceSpace space = spaces.read(alternate.space(), alternate.resources());
      TintFunction transform = FunctionReader.read(alternate.transform());
      for (int i = 1; i <= steps; i++) {
        ramp.put(100.0 * i / steps, lab(space, transform, alternate, (float) i / steps));
      }
      return ramp;
    } catch (IOException | RuntimeException e) {
      return new TreeMap<>();
    }
  }

  private Lab lab(
      SourceSpace space, TintFunction transform, SpotAlternates.Alternate alternate, float tint)
      throws IOException {
    float[] input = new float[alternate.components()];
    input[alternate.component()] = tint;
    float[] color = new float[Math.max(1, space.components())];
    transform.eval(input, color);
    if (space instanceof ProcessSpaces.Converted converted) {
      return absolute(converted.source(), color);
    }
    char[] row = new char[StateTable.INKS + InkSet.MOST];
    space.ink(color, row);
    double[] cmyk = new double[4];
    for (int i = 0; i < 4; i++) {
      cmyk[i] = Tint.toPercent(row[StateTable.INKS + i]);
    }
    return condition.aim(cmyk[0], cmyk[1], cmyk[2], cmyk[3]).lab();
  }

  /**
   * The colour of an alternate that is no ink. Lab values are taken as they stand, as spot colours
   * are measured; others are relative to the paper.
   */
  private Lab absolute(SourceColor source, float[] color) {
    double[] values = new double[source.components()];
    for (int i = 0; i < values.length; i++) {
      values[i] = color[i];
    }
    double[] lab = source.relativeLab(values);
    Lab relative = new Lab(lab[0], lab[1], lab[2]);
    if (source.high(0) > 1) {
      return relative;
    }
    ReferenceWhite white = ReferenceWhite.ISO_13655;
    Xyz paper = white.toXyz(condition.paper());
    Xyz xyz = white.toXyz(relative);
    Xyz full = white.xyz();
    return white.toLab(
        new Xyz(
            xyz.x() * paper.x() / full.x(),
            xyz.y() * paper.y() / full.y(),
            xyz.z() * paper.z() / full.z()));
  }
}
