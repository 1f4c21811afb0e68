package selvage.color;

import java.util.Objects;
import selvage.ink.Tint;

/**
 * A printing condition known by its characterization data. At the data's nodes the aim is the
 * measured colour as the data have it; between them {@link CellularModel} interpolates.
 */
final class CharacterizedCondition implements ReferenceCondition {
  private final String name;
  private final Origin origin;
  private final CharacterizationData data;
  private final CellularModel model;
  private final Inverse inverse;
  private final ProcessSeparation fromSrgb;

  /**
   * A condition of its data.
   *
   * @param data holds paper and the four solids
   * @param totalInk the most ink that {@link #separate} uses, as a fraction
   */
  CharacterizedCondition(String name, Origin origin, CharacterizationData data, double totalInk) {
    this.name = Objects.requireNonNull(name, "name");
    this.origin = Objects.requireNonNull(origin, "origin");
    this.data = data;
    this.model = CellularModel.of(data);
    this.inverse = new Inverse(new Relative(model), totalInk);
    this.fromSrgb = new ProcessSeparation(SourceColor.srgb(), this);
  }

  private CharacterizedCondition(CharacterizedCondition same, Origin origin) {
    this.name = same.name;
    this.origin = origin;
    this.data = same.data;
    this.model = same.model;
    this.inverse = same.inverse;
    this.fromSrgb = same.fromSrgb;
  }

  /** The same condition, found elsewhere; what was prepared for one serves both. */
  CharacterizedCondition withOrigin(Origin other) {
    return other == origin ? this : new CharacterizedCondition(this, other);
  }

  @Override
  public ProcessSeparation fromSrgb() {
    return fromSrgb;
  }

  @Override
  public String name() {
    return name;
  }

  @Override
  public Origin origin() {
    return origin;
  }

  @Override
  public Aim aim(double c, double m, double y, double k) {
    int node = data.findPercent(c, m, y, k);
    if (node >= 0) {
      return new Aim(data.lab(node), AimSource.CONDITION_NODE);
    }
    double[] roots = new double[3];
    model.roots(c, m, y, k, CellularModel.scratch(), roots);
    double[] lab = new double[3];
    toLab(roots, lab);
    return new Aim(new Lab(lab[0], lab[1], lab[2]), AimSource.CONDITION);
  }

  @Override
  public void aims(char[] tints, int rows, float[] lab, AimSource[] sources) {
    double[] scratch = CellularModel.scratch();
    double[] out = new double[3];
    double percent = 100.0 / Tint.FULL;
    for (int row = 0; row < rows; row++) {
      char c = tints[4 * row];
      char m = tints[4 * row + 1];
      char y = tints[4 * row + 2];
      char k = tints[4 * row + 3];
      int node = data.find(c, m, y, k);
      if (node >= 0) {
        for (int i = 0; i < 3; i++) {
          lab[3 * row + i] = (float) data.lab(node, i);
        }
        sources[row] = AimSource.CONDITION_NODE;
      } else {
        model.roots(c * percent, m * percent, y * percent, k * percent, scratch, out);
        toLab(out, out);
        for (int i = 0; i < 3; i++) {
          lab[3 * row + i] = (float) out[i];
        }
        sources[row] = AimSource.CONDITION;
      }
    }
  }

  @Override
  public float[] separate(Lab relative) {
    double[] cmyk = new double[4];
    inverse.get().separate(relative.l(), relative.a(), relative.b(), cmyk);
    return new float[] {(float) cmyk[0], (float) cmyk[1], (float) cmyk[2], (float) cmyk[3]};
  }

  private static void toLab(double[] roots, double[] lab) {
    double fx = ReferenceWhite.f(roots[0] * roots[0]);
    double fy = ReferenceWhite.f(roots[1] * roots[1]);
    double fz = ReferenceWhite.f(roots[2] * roots[2]);
    lab[0] = 116 * fy - 16;
    lab[1] = 500 * (fx - fy);
    lab[2] = 200 * (fy - fz);
  }

  /** The model's colours over those of the paper. */
  private static final class Relative implements ProcessModel {
    private final CellularModel model;
    private final double[] paper = new double[3];

    Relative(CellularModel model) {
      this.model = model;
      model.roots(0, 0, 0, 0, CellularModel.scratch(), paper);
    }

    @Override
    public double[] scratch() {
      return CellularModel.scratch();
    }

    @Override
    public void relativeLab(double[] cmyk, double[] scratch, double[] lab) {
      model.roots(100 * cmyk[0], 100 * cmyk[1], 100 * cmyk[2], 100 * cmyk[3], scratch, lab);
      for (int i = 0; i < 3; i++) {
        lab[i] /= paper[i];
      }
      toLab(lab, lab);
    }
  }

  /** The inverse, prepared when first asked for. */
  private static final class Inverse {
    private final ProcessModel model;
    private final double totalInk;
    private volatile ProcessInverse prepared;

    Inverse(ProcessModel model, double totalInk) {
      this.model = model;
      this.totalInk = totalInk;
    }

    /** Two threads may both prepare it; the results are equal. */
    ProcessInverse get() {
      ProcessInverse found = prepared;
      if (found == null) {
        found = new ProcessInverse(model, totalInk);
        prepared = found;
      }
      return found;
    }
  }
}
