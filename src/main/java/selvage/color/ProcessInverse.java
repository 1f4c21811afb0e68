package selvage.color;

/**
 * Process tints for a colour: the inverse of a {@link ProcessModel} under a {@link
 * BlackGeneration}.
 *
 * <p>The three inputs of the black generation are found by minimising a weighted CIELAB difference
 * to the wanted colour (Levenberg–Marquardt with bounds) [marquardt1963]. A colour that can be
 * printed is met; for any other the nearest is taken, lightness counting less than chroma and hue,
 * so that vivid colours stay vivid. Immutable.
 */
final class ProcessInverse {
  private static final int LATTICE = 7;
  private static final int MOST_STEPS = 60;
  private static final double MET = 1e-12; // squared difference
  private static final double NUDGE = 1e-6;

  /**
   * How much a difference of lightness counts for a colour that can't be printed. With full weight
   * a vivid green of a screen becomes pale; choice of ours, see decision 0012.
   */
  private static final double LIGHTNESS_WEIGHT = 0.4;

  /** How differences shrink with chroma, as CIE94's hue term does [cie116]. */
  private static final double CHROMA_COMPRESSION = 0.015;

  private final ProcessModel model;
  private final BlackGeneration blackGeneration;
  private final double[] latticeLab; // LATTICE³ × 3
  private final double blackY;

  /**
   * Prepares the search.
   *
   * @param totalInk the most that C, M, Y and K may sum up to, as a fraction from 2 to 4
   */
  ProcessInverse(ProcessModel model, double totalInk) {
    this.model = model;
    Search search = new Search();
    this.blackGeneration = new BlackGeneration(search.neutralUnderBlack(totalInk - 1));
    this.latticeLab = new double[LATTICE * LATTICE * LATTICE * 3];
    double[] lab = new double[3];
    for (int i = 0; i < LATTICE * LATTICE * LATTICE; i++) {
      search.at(latticePoint(i), lab);
      System.arraycopy(lab, 0, latticeLab, 3 * i, 3);
    }
    this.blackY = ReferenceWhite.inverse((Math.max(0, lab[0]) + 16) / 116);
  }

  private static double[] latticePoint(int index) {
    int c = index / (LATTICE * LATTICE);
    int m = index / LATTICE % LATTICE;
    int y = index % LATTICE;
    double step = LATTICE - 1;
    return new double[] {c / step, m / step, y / step};
  }

  /**
   * Tints for a media-relative colour, black point adapted: L* 0 becomes the darkest that the
   * condition prints.
   *
   * @param l L*, 100 for white
   * @param a a*, 0 for white
   * @param b b*, 0 for white
   * @param cmyk takes C, M, Y, K as fractions
   */
  void separate(double l, double a, double b, double[] cmyk) {
    Search search = new Search();
    search.aimAt(BlackPoint.raise(l, a, b, blackY));
    search.run();
    blackGeneration.apply(search.inks, cmyk);
  }

  /** One search with its working values. */
  private final class Search {
    private final double[] scratch = model.scratch();
    private final double[] cmyk = new double[4];
    private final double[] lab = new double[3];
    private final double[] inks = new double[3];
    private final double[] trial = new double[3];
    private final double[] residual = new double[3];
    private final double[] nudged = new double[3];
    private final double[][] jacobian = new double[3][3];
    private final double[][] normal = new double[3][4];
    private double[] aim;
    private double cosHue;
    private double sinHue;
    private double chromaScale;

    void at(double[] cmy, double[] out) {
      blackGeneration.apply(cmy, cmyk);
      model.relativeLab(cmyk, scratch, out);
    }

    void aimAt(double[] wanted) {
      aim = wanted;
      double chroma = Math.sqrt(wanted[1] * wanted[1] + wanted[2] * wanted[2]);
      cosHue = chroma > 0 ? wanted[1] / chroma : 1;
      sinHue = chroma > 0 ? wanted[2] / chroma : 0;
      chromaScale = 1 / (1 + CHROMA_COMPRESSION * chroma);
    }

    /** The weighted terms of a colour against the aim; returns the sum of their squares. */
    private double residual(double l, double a, double b, double[] out) {
      double da = a - aim[1];
      double db = b - aim[2];
      out[0] = LIGHTNESS_WEIGHT * (l - aim[0]);
      out[1] = (da * cosHue + db * sinHue) * chromaScale;
      out[2] = (db * cosHue - da * sinHue) * chromaScale;
      return out[0] * out[0] + out[1] * out[1] + out[2] * out[2];
    }

    private double residualAt(double[] cmy, double[] out) {
      at(cmy, lab);
      return residual(lab[0], lab[1], lab[2], out);
    }

    void run() {
      double best = Double.MAX_VALUE;
      int start = 0;
      for (int i = 0; i < latticeLab.length; i += 3) {
        double distance = residual(latticeLab[i], latticeLab[i + 1], latticeLab[i + 2], residual);
        if (distance < best) {
          best = distance;
          start = i / 3;
        }
      }
      System.arraycopy(latticePoint(start), 0, inks, 0, 3);
      double damping = 1e-3;
      boolean moved = true;
      for (int step = 0; step < MOST_STEPS && best > MET && damping < 1e12; step++) {
        if (moved) {
          linearize();
        }
        if (!propose(damping)) {
          return;
        }
        double distance = residualAt(trial, nudged);
        moved = distance < best;
        if (moved) {
          double gain = best - distance;
          best = distance;
          System.arraycopy(trial, 0, inks, 0, 3);
          damping = Math.max(1e-9, damping / 8);
          if (gain < 1e-14 * (1 + best)) {
            return;
          }
        } else {
          damping *= 6;
        }
      }
    }

    /** Residual and Jacobian at the inks reached. */
    private void linearize() {
      residualAt(inks, residual);
      System.arraycopy(inks, 0, trial, 0, 3);
      for (int i = 0; i < 3; i++) {
        double nudge = inks[i] + NUDGE <= 1 ? NUDGE : -NUDGE;
        trial[i] = inks[i] + nudge;
        residualAt(trial, nudged);
        trial[i] = inks[i];
        for (int r = 0; r < 3; r++) {
          jacobian[r][i] = (nudged[r] - residual[r]) / nudge;
        }
      }
    }

    /** A damped Gauss–Newton step within the bounds; false where no ink can move. */
    private boolean propose(double damping) {
      boolean any = false;
      boolean[] free = new boolean[3];
      for (int i = 0; i < 3; i++) {
        double gradient = 0;
        for (int r = 0; r < 3; r++) {
          gradient += jacobian[r][i] * residual[r];
        }
        normal[i][3] = -gradient;
        free[i] = !(inks[i] <= 0 && gradient >= 0) && !(inks[i] >= 1 && gradient <= 0);
        any |= free[i] && gradient != 0;
      }
      if (!any) {
        return false;
      }
      for (int i = 0; i < 3; i++) {
        for (int j = 0; j < 3; j++) {
          double sum = 0;
          for (int r = 0; r < 3; r++) {
            sum += jacobian[r][i] * jacobian[r][j];
          }
          normal[i][j] = free[i] && free[j] ? sum : 0;
        }
        normal[i][i] = free[i] ? normal[i][i] * (1 + damping) + 1e-9 : 1;
        normal[i][3] = free[i] ? normal[i][3] : 0;
      }
      solve(normal);
      for (int i = 0; i < 3; i++) {
        trial[i] = Math.min(1, Math.max(0, inks[i] + normal[i][3]));
      }
      return true;
    }

    /**
     * C, M, Y that make solid black neutral against the paper, their sum given; a search along the
     * two ratios, from the usual grey balance.
     */
    double[] neutralUnderBlack(double sum) {
      double[] best = {0.36 * sum, 0.32 * sum, 0.32 * sum};
      double span = 0.08 * sum;
      double least = chromaUnderBlack(best);
      for (int halving = 0; halving < 12; halving++) {
        double[] center = best.clone();
        for (int i = -1; i <= 1; i++) {
          for (int j = -1; j <= 1; j++) {
            double[] tried = {
              center[0] + i * span, center[1] + j * span, center[2] - (i + j) * span
            };
            double chroma = chromaUnderBlack(tried);
            if (chroma < least) {
              least = chroma;
              best = tried;
            }
          }
        }
        span /= 2;
      }
      return best;
    }

    private double chromaUnderBlack(double[] cmy) {
      for (double tint : cmy) {
        if (tint < 0.25 || tint > 1) {
          return Double.MAX_VALUE;
        }
      }
      System.arraycopy(cmy, 0, cmyk, 0, 3);
      cmyk[3] = 1;
      model.relativeLab(cmyk, scratch, lab);
      return Math.hypot(lab[1], lab[2]);
    }
  }

  /** Gaussian elimination with pivots of a positive definite 3 × 3 system; answers in column 3. */
  private static void solve(double[][] m) {
    for (int i = 0; i < 3; i++) {
      for (int row = 0; row < 3; row++) {
        if (row != i) {
          double factor = m[row][i] / m[i][i];
          for (int j = i; j < 4; j++) {
            m[row][j] -= factor * m[i][j];
          }
        }
      }
    }
    for (int i = 0; i < 3; i++) {
      m[i][3] /= m[i][i];
    }
  }
}
