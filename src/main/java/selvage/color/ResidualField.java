package selvage.color;

/**
 * A model's errors at the nodes, carried to the tints between them by inverse-distance weights
 * (Shepard's method, power 4) [shepard1968]. At a node the correction is that node's error. The
 * distance is Euclidean in tints.
 */
final class ResidualField {
  private final double[] percents; // nodes × 4
  private final double[] errors; // nodes × 3, measured minus modelled roots

  private ResidualField(double[] percents, double[] errors) {
    this.percents = percents;
    this.errors = errors;
  }

  static ResidualField of(CharacterizationData data, double[] roots, CellularModel model) {
    double[] percents = new double[4 * data.size()];
    double[] errors = new double[3 * data.size()];
    double[] modelled = new double[3];
    double[] scratch = CellularModel.scratch();
    for (int node = 0; node < data.size(); node++) {
      for (int i = 0; i < 4; i++) {
        percents[4 * node + i] = data.percent(node, i);
      }
      model.roots(
          percents[4 * node],
          percents[4 * node + 1],
          percents[4 * node + 2],
          percents[4 * node + 3],
          scratch,
          modelled);
      for (int i = 0; i < 3; i++) {
        errors[3 * node + i] = roots[3 * node + i] - modelled[i];
      }
    }
    return new ResidualField(percents, errors);
  }

  /** Corrects roots in place; no result is below 0. */
  void addTo(double c, double m, double y, double k, double[] roots) {
    double weights = 0;
    double x = 0;
    double yy = 0;
    double z = 0;
    for (int node = 0; node < errors.length / 3; node++) {
      double dc = c - percents[4 * node];
      double dm = m - percents[4 * node + 1];
      double dy = y - percents[4 * node + 2];
      double dk = k - percents[4 * node + 3];
      double squared = dc * dc + dm * dm + dy * dy + dk * dk;
      if (squared == 0) {
        weights = 1;
        x = errors[3 * node];
        yy = errors[3 * node + 1];
        z = errors[3 * node + 2];
        break;
      }
      double weight = 1 / (squared * squared);
      weights += weight;
      x += weight * errors[3 * node];
      yy += weight * errors[3 * node + 1];
      z += weight * errors[3 * node + 2];
    }
    roots[0] = Math.max(0, roots[0] + x / weights);
    roots[1] = Math.max(0, roots[1] + yy / weights);
    roots[2] = Math.max(0, roots[2] + z / weights);
  }
}
