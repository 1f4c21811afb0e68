package selvage.color;

/** CIELAB itself as a source: L* from 0 to 100, a* and b* within a range. */
record LabColor(double lowA, double highA, double lowB, double highB) implements SourceColor {
  @Override
  public int components() {
    return 3;
  }

  @Override
  public double low(int component) {
    return component == 0 ? 0 : component == 1 ? lowA : lowB;
  }

  @Override
  public double high(int component) {
    return component == 0 ? 100 : component == 1 ? highA : highB;
  }

  @Override
  public double[] relativeLab(double... values) {
    double[] lab = new double[3];
    for (int i = 0; i < 3; i++) {
      lab[i] = Math.min(high(i), Math.max(low(i), values[i]));
    }
    return lab;
  }
}
