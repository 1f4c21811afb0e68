package selvage.score;

import java.util.ArrayList;
import java.util.List;

/**
 * Chooses which causes a set of errors needs. Stepwise: the least needed is taken away, the most
 * needed added, one exchanged for another, until nothing changes; once from none, and where there
 * are readings enough once from all, because two that act against each other can stand for a third
 * that was taken away before them. A cause must lower Akaike's criterion with the correction for
 * small samples [hurvich1989], and pass an F test at 0.2 %, because a dozen and more are tried.
 */
final class CauseSelection {
  private static final int MOST_STEPS = 100;

  /** Readings are never taken for better than this, in ΔE*ab an axis. */
  private static final double LEAST_DEVIATION = 0.02;

  private final NormalEquations equations;
  private final int[][] groups;
  private final int observations;
  private final Quantiles quantiles;

  /**
   * A choice to be made.
   *
   * @param groups the columns of each cause; an empty group is no candidate
   * @param observations how many rows the equations were made of
   */
  CauseSelection(NormalEquations equations, int[][] groups, int observations, Quantiles quantiles) {
    this.equations = equations;
    this.groups = new int[groups.length][];
    this.observations = observations;
    this.quantiles = quantiles;
    for (int i = 0; i < groups.length; i++) {
      boolean speaks = groups[i].length > 0;
      for (int column : groups[i]) {
        speaks &= equations.speaks(column);
      }
      this.groups[i] = speaks ? groups[i] : new int[0];
    }
  }

  /** The causes needed, rising. */
  List<Integer> choose() {
    boolean[] best = stepped(new boolean[groups.length]);
    int all = 0;
    for (int[] group : groups) {
      all += group.length;
    }
    if (observations > 1.5 * all + 3) {
      boolean[] from = new boolean[groups.length];
      for (int i = 0; i < from.length; i++) {
        from[i] = groups[i].length > 0;
      }
      boolean[] other = stepped(from);
      best = criterion(other) < criterion(best) ? other : best;
    }
    List<Integer> result = new ArrayList<>();
    for (int i = 0; i < best.length; i++) {
      if (best[i]) {
        result.add(i);
      }
    }
    return result;
  }

  private boolean[] stepped(boolean[] from) {
    boolean[] chosen = from;
    for (int step = 0; step < MOST_STEPS; step++) {
      if (!takeAway(chosen) && !add(chosen) && !exchange(chosen)) {
        break;
      }
    }
    return chosen;
  }

  private double criterion(boolean[] chosen) {
    return criterion(rest(chosen), parameters(chosen));
  }

  private boolean takeAway(boolean[] chosen) {
    double with = rest(chosen);
    int parameters = parameters(chosen);
    int least = -1;
    double lowest = Double.POSITIVE_INFINITY;
    for (int i = 0; i < groups.length; i++) {
      if (chosen[i]) {
        chosen[i] = false;
        double without = rest(chosen);
        chosen[i] = true;
        double f = ratio(without, with, groups[i].length, parameters);
        double score = f - quantile(groups[i].length, parameters);
        if (score < lowest) {
          lowest = score;
          least = i;
        }
      }
    }
    if (least < 0 || lowest >= 0) {
      return false;
    }
    chosen[least] = false;
    return true;
  }

  private boolean add(boolean[] chosen) {
    double without = rest(chosen);
    double best = criterion(without, parameters(chosen));
    int found = -1;
    for (int i = 0; i < groups.length; i++) {
      if (!chosen[i] && groups[i].length > 0) {
        chosen[i] = true;
        double with = rest(chosen);
        int parameters = parameters(chosen);
        chosen[i] = false;
        double criterion = criterion(with, parameters);
        boolean needed =
            parameters < observations - 2
                && ratio(without, with, groups[i].length, parameters)
                    > quantile(groups[i].length, parameters);
        if (needed && criterion < best) {
          best = criterion;
          found = i;
        }
      }
    }
    if (found < 0) {
      return false;
    }
    chosen[found] = true;
    return true;
  }

  private boolean exchange(boolean[] chosen) {
    double best = criterion(rest(chosen), parameters(chosen)) - 1;
    int out = -1;
    int in = -1;
    for (int i = 0; i < groups.length; i++) {
      for (int j = 0; j < groups.length && chosen[i]; j++) {
        if (!chosen[j] && groups[j].length > 0) {
          chosen[i] = false;
          chosen[j] = true;
          double criterion = criterion(rest(chosen), parameters(chosen));
          chosen[i] = true;
          chosen[j] = false;
          if (criterion < best) {
            best = criterion;
            out = i;
            in = j;
          }
        }
      }
    }
    if (out < 0) {
      return false;
    }
    chosen[out] = false;
    chosen[in] = true;
    return true;
  }

  private double ratio(double without, double with, int more, int parameters) {
    return (without - with) / more / (with / Math.max(1, observations - parameters));
  }

  private double quantile(int more, int parameters) {
    return quantiles.f(more, Math.max(1, observations - parameters));
  }

  /** Akaike's criterion with the correction for small samples; the noise is a parameter too. */
  double criterion(double rest, int parameters) {
    return criterion(rest, parameters, observations);
  }

  /** The same for so many observations. */
  static double criterion(double rest, int parameters, int observations) {
    double k = parameters + 1.0;
    double room = observations - k - 1;
    if (room <= 0) {
      return Double.POSITIVE_INFINITY;
    }
    return observations * Math.log(rest / observations) + 2 * k + 2 * k * (k + 1) / room;
  }

  private double rest(boolean[] chosen) {
    return equations.rest(columns(chosen)) + observations * LEAST_DEVIATION * LEAST_DEVIATION;
  }

  private int parameters(boolean[] chosen) {
    int count = 0;
    for (int i = 0; i < chosen.length; i++) {
      count += chosen[i] ? groups[i].length : 0;
    }
    return count;
  }

  private int[] columns(boolean[] chosen) {
    int[] columns = new int[parameters(chosen)];
    int at = 0;
    for (int i = 0; i < chosen.length; i++) {
      if (chosen[i]) {
        for (int column : groups[i]) {
          columns[at++] = column;
        }
      }
    }
    return columns;
  }
}
