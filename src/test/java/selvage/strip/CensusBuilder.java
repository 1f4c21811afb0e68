package selvage.strip;

import java.util.ArrayList;
import java.util.Comparator;
import java.util.List;
import java.util.TreeSet;
import selvage.color.AimSource;
import selvage.color.Lab;
import selvage.ink.Colorant;
import selvage.ink.InkMixture;
import selvage.separation.ObjectKind;
import selvage.survey.Census;

/** Builds a census from mixtures, areas and colours. */
public final class CensusBuilder {
  private record Row(InkMixture mixture, long samples, ObjectKind kind, Lab lab) {}

  private final List<Row> rows = new ArrayList<>();

  /** Adds a row. */
  public CensusBuilder add(InkMixture mixture, long samples, ObjectKind kind, Lab lab) {
    rows.add(new Row(mixture, samples, kind, lab));
    return this;
  }

  /** Adds a row in the colour that {@link PlainCondition} makes of it. */
  public CensusBuilder add(InkMixture mixture, long samples, ObjectKind kind) {
    return add(mixture, samples, kind, PlainCondition.color(mixture));
  }

  /** The census, rows by falling area. */
  public Census build() {
    TreeSet<Colorant> all = new TreeSet<>(Colorant.PROCESS);
    rows.forEach(row -> all.addAll(row.mixture().units().keySet()));
    List<Colorant> colorants = List.copyOf(all);
    List<Row> sorted =
        rows.stream().sorted(Comparator.comparingLong(row -> -row.samples())).toList();
    int size = sorted.size();
    char[] tints = new char[size * colorants.size()];
    long[] samples = new long[size];
    int[] kinds = new int[size];
    float[] lab = new float[3 * size];
    AimSource[] sources = new AimSource[size];
    for (int i = 0; i < size; i++) {
      Row row = sorted.get(i);
      for (int c = 0; c < colorants.size(); c++) {
        tints[i * colorants.size() + c] = (char) row.mixture().units(colorants.get(c));
      }
      samples[i] = row.samples();
      kinds[i] = row.kind().bit();
      lab[3 * i] = (float) row.lab().l();
      lab[3 * i + 1] = (float) row.lab().a();
      lab[3 * i + 2] = (float) row.lab().b();
      sources[i] = row.mixture().hasSpot() ? AimSource.ALTERNATE : AimSource.CONDITION;
    }
    return new Census(colorants, tints, samples, kinds, lab, sources);
  }
}
