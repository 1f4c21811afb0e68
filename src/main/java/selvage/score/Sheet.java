package selvage.score;

import java.util.ArrayList;
import java.util.HashSet;
import java.util.List;
import java.util.Set;
import selvage.color.Lab;
import selvage.ink.InkMixture;
import selvage.measurement.MatchedStrip;
import selvage.measurement.MatchedStrip.PatchReading;
import selvage.strip.BoxMm;

/**
 * The printed patches of a matched strip, each once, though it may stand in both sets.
 *
 * @param readings a patch and its reading each, in the strip's order
 */
record Sheet(List<PatchReading> readings) {
  Sheet {
    readings = List.copyOf(readings);
  }

  static Sheet of(MatchedStrip matched) {
    Set<BoxMm> seen = new HashSet<>();
    List<PatchReading> readings = new ArrayList<>();
    for (PatchReading reading : matched.readings()) {
      if (seen.add(reading.patch().box())) {
        readings.add(reading);
      }
    }
    return new Sheet(readings);
  }

  int size() {
    return readings.size();
  }

  List<InkMixture> mixtures() {
    return readings.stream().map(one -> one.patch().mixture()).toList();
  }

  String id(int row) {
    return readings.get(row).patch().id();
  }

  Lab aim(int row) {
    return readings.get(row).patch().aim().lab();
  }

  /** Reading less aim: ΔL*, Δa*, Δb* a patch. */
  double[] errors() {
    double[] errors = new double[3 * size()];
    for (int row = 0; row < size(); row++) {
      Lab lab = readings.get(row).reading().lab();
      Lab aim = aim(row);
      errors[3 * row] = lab.l() - aim.l();
      errors[3 * row + 1] = lab.a() - aim.a();
      errors[3 * row + 2] = lab.b() - aim.b();
    }
    return errors;
  }
}
