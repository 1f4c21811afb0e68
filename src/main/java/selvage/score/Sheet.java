package selvage.score;

import java.util.ArrayList;
import java.util.Collections;
import java.util.IdentityHashMap;
import java.util.List;
import java.util.Set;
import selvage.color.Lab;
import selvage.ink.InkMixture;
import selvage.measurement.MatchedStrip;
import selvage.measurement.MatchedStrip.PatchReading;
import selvage.measurement.Reading;

/**
 * The printed patches of matched strips, each once, though it may stand in both sets.
 *
 * @param readings a patch and its reading each, in the strip's order
 */
record Sheet(List<PatchReading> readings) {
  Sheet {
    readings = List.copyOf(readings);
  }

  static Sheet of(List<MatchedStrip> strips) {
    Set<Reading> seen = Collections.newSetFromMap(new IdentityHashMap<>());
    List<PatchReading> readings = new ArrayList<>();
    for (MatchedStrip strip : strips) {
      for (PatchReading reading : strip.readings()) {
        if (seen.add(reading.reading())) {
          readings.add(reading);
        }
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

  Lab lab(int row) {
    return readings.get(row).reading().lab();
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
