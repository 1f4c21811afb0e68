package selvage.power;

import java.nio.file.Path;
import java.util.ArrayList;
import java.util.Arrays;
import java.util.HashMap;
import java.util.HashSet;
import java.util.List;
import java.util.Map;
import java.util.Random;
import java.util.Set;
import org.apache.commons.math3.ml.clustering.CentroidCluster;
import org.apache.commons.math3.ml.clustering.DoublePoint;
import org.apache.commons.math3.ml.clustering.KMeansPlusPlusClusterer;
import org.apache.commons.math3.ml.distance.EuclideanDistance;
import org.apache.commons.math3.random.Well19937c;
import selvage.color.AimModel;
import selvage.color.AimSource;
import selvage.color.De00Kernel;
import selvage.color.Lab;
import selvage.color.ReferenceCondition;
import selvage.color.SpotInk;
import selvage.finding.InputException;
import selvage.ink.Colorant;
import selvage.ink.InkMixture;
import selvage.strip.JobPatch;
import selvage.strip.JobSet;
import selvage.strip.StandardStrip;
import selvage.survey.Census;
import selvage.survey.PageSurvey;

/** A page's inked mixtures in columns, the standard patches below them, and sets of patches. */
final class PowerPage {
  private static final int CLUSTER_SAMPLE = 6000;

  final String name;
  final Census census;
  final Map<String, SpotInk> spots;
  final List<Colorant> colorants;
  final ReferenceCondition condition;
  final char[] tints;
  final float[] aims;
  final double[] weights; // of the page's rows
  private final Map<InkMixture, Integer> rowOf = new HashMap<>();
  private final double[] until; // running sums of the weights
  private final int[] standard;
  private final List<Lab> standardAims = new ArrayList<>();

  PowerPage(String name, PageSurvey survey, ReferenceCondition condition, StandardStrip strip)
      throws InputException {
    this.name = name;
    this.census = survey.census();
    this.spots = survey.spots();
    this.condition = condition;
    this.colorants = census.colorants();
    int inks = colorants.size();
    int rows = 0;
    for (int row = 0; row < census.size(); row++) {
      rows += census.isPaper(row) ? 0 : 1;
    }
    List<StandardStrip.StandardPatch> patches = strip.patches();
    this.tints = new char[(rows + patches.size()) * inks];
    this.weights = new double[rows];
    this.until = new double[rows];
    int at = 0;
    double sum = 0;
    for (int row = 0; row < census.size(); row++) {
      if (census.isPaper(row)) {
        continue;
      }
      for (int c = 0; c < inks; c++) {
        tints[at * inks + c] = (char) census.tint(row, c);
      }
      rowOf.put(census.mixture(row), at);
      weights[at] = census.samples(row);
      sum += weights[at];
      until[at++] = sum;
    }
    this.standard = new int[patches.size()];
    for (int i = 0; i < patches.size(); i++) {
      for (int c = 0; c < inks; c++) {
        tints[at * inks + c] = (char) patches.get(i).mixture().units(colorants.get(c));
      }
      standard[i] = at++;
    }
    this.aims = new float[3 * at];
    new AimModel(condition, spots).aims(colorants, tints, aims, new AimSource[at]);
    for (int row : standard) {
      standardAims.add(aim(row));
    }
  }

  private Lab aim(int row) {
    return new Lab(aims[3 * row], aims[3 * row + 1], aims[3 * row + 2]);
  }

  /** The colour of a sample of the page, drawn by area. */
  Lab anyColor(Random random) {
    return aim(anyRow(random));
  }

  /** The row of a mixture that the page has. */
  int row(InkMixture mixture) {
    return rowOf.get(mixture);
  }

  /** Rows at even steps of area, rising; those of large area several times. */
  List<Integer> evenly(int samples) {
    List<Integer> rows = new ArrayList<>();
    double step = until[until.length - 1] / samples;
    int row = 0;
    for (int i = 0; i < samples; i++) {
      while (until[row] < (i + 0.5) * step) {
        row++;
      }
      rows.add(row);
    }
    return rows;
  }

  private int anyRow(Random random) {
    int at = Arrays.binarySearch(until, random.nextDouble() * until[until.length - 1]);
    return Math.min(until.length - 1, at < 0 ? -at - 1 : at);
  }

  /** All ways to judge the page with so many job patches. */
  List<PowerSet> sets(int count, long seed) {
    JobSet set = JobSet.choose(census, count, standardAims);
    int[] job = set.patches().stream().mapToInt(patch -> rowOf.get(patch.mixture())).toArray();
    double[] shares = set.patches().stream().mapToDouble(JobPatch::representsPercent).toArray();
    double within = set.coverage().within3Percent();
    List<PowerSet> sets = new ArrayList<>();
    sets.add(new PowerSet("job, by area", count, job, shares, within));
    sets.add(new PowerSet("job, plain", count, job, PowerSet.equal(job.length), within));
    double standardWithin = set.coverage().standardWithin3Percent();
    sets.add(
        new PowerSet("standard", count, standard, PowerSet.equal(standard.length), standardWithin));
    int[] both = Arrays.copyOf(job, job.length + standard.length);
    System.arraycopy(standard, 0, both, job.length, standard.length);
    sets.add(new PowerSet("both, plain", count, both, PowerSet.equal(both.length), within));
    sets.add(weighed("k-means, by area", count, clustered(count, seed)));
    sets.add(weighed("random, by area", count, random(count, seed)));
    return sets;
  }

  private int[] random(int count, long seed) {
    Random random = new Random(seed);
    Set<Integer> rows = new HashSet<>();
    for (int attempt = 0; attempt < 100 * count && rows.size() < count; attempt++) {
      rows.add(anyRow(random));
    }
    return rows.stream().mapToInt(Integer::intValue).sorted().toArray();
  }

  /** The members nearest to the means of k-means over colours drawn by area. */
  private int[] clustered(int count, long seed) {
    Random random = new Random(seed);
    List<DoublePoint> sample = new ArrayList<>();
    for (int i = 0; i < CLUSTER_SAMPLE; i++) {
      Lab lab = anyColor(random);
      sample.add(new DoublePoint(new double[] {lab.l(), lab.a(), lab.b()}));
    }
    KMeansPlusPlusClusterer<DoublePoint> clusterer =
        new KMeansPlusPlusClusterer<>(count, 100, new EuclideanDistance(), new Well19937c(seed));
    Set<Integer> rows = new HashSet<>();
    for (CentroidCluster<DoublePoint> cluster : clusterer.cluster(sample)) {
      rows.add(nearestRow(cluster.getCenter().getPoint()));
    }
    return rows.stream().mapToInt(Integer::intValue).sorted().toArray();
  }

  private int nearestRow(double[] lab) {
    int best = 0;
    double least = Double.MAX_VALUE;
    for (int row = 0; row < weights.length; row++) {
      double l = aims[3 * row] - lab[0];
      double a = aims[3 * row + 1] - lab[1];
      double b = aims[3 * row + 2] - lab[2];
      double squared = l * l + a * a + b * b;
      if (squared < least) {
        least = squared;
        best = row;
      }
    }
    return best;
  }

  /** Gives rows the shares of the area for which they are the nearest; a plain full search. */
  private PowerSet weighed(String way, int count, int[] rows) {
    double[] shares = new double[rows.length];
    double within = 0;
    for (int row = 0; row < weights.length; row++) {
      int best = 0;
      float least = Float.MAX_VALUE;
      for (int i = 0; i < rows.length; i++) {
        float de00 = de00(aims, row, aims, rows[i]);
        if (de00 < least) {
          least = de00;
          best = i;
        }
      }
      shares[best] += weights[row];
      within += least <= 3 ? weights[row] : 0;
    }
    return new PowerSet(way, count, rows, shares, 100 * within / until[until.length - 1]);
  }

  static float de00(float[] one, int i, float[] other, int j) {
    return De00Kernel.de00(
        one[3 * i],
        one[3 * i + 1],
        one[3 * i + 2],
        De00Kernel.chroma(one[3 * i + 1], one[3 * i + 2]),
        other[3 * j],
        other[3 * j + 1],
        other[3 * j + 2],
        De00Kernel.chroma(other[3 * j + 1], other[3 * j + 2]));
  }

  /** Whether the whole page, printed so, is past a limit. */
  boolean isBad(float[] printed) {
    float[] de00 = new float[weights.length];
    for (int row = 0; row < de00.length; row++) {
      de00[row] = de00(aims, row, printed, row);
    }
    return PowerSet.isBad(de00, weights);
  }

  /** The survey's pages of a job, by file name and number. */
  static String title(Path file, int page) {
    return file.getFileName().toString().replace(".pdf", "") + " " + page;
  }
}
