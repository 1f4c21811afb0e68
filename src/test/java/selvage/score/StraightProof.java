package selvage.score;

import java.util.ArrayList;
import java.util.HashMap;
import java.util.List;
import java.util.Map;
import selvage.color.Lab;
import selvage.ink.InkMixture;
import selvage.measurement.Alignment;
import selvage.measurement.MatchedStrip;
import selvage.measurement.MatchedStrip.PatchReading;
import selvage.measurement.Measurement;
import selvage.measurement.MeasurementCondition;
import selvage.measurement.Reading;
import selvage.measurement.StripFixture;
import selvage.strip.BoxMm;
import selvage.strip.Patch;
import selvage.strip.Strip;

/** A proof of {@link StraightPress}: a job strip of its mixtures, read with errors by hand. */
final class StraightProof {
  private StraightProof() {}

  /** All mixtures of the press as job patches, in their order. */
  static Strip strip() {
    StripFixture fixture = StripFixture.empty();
    for (InkMixture mixture : StraightPress.mixtures()) {
      fixture.job("flat", percents(mixture), aim(mixture), "condition", 2);
    }
    return fixture.build("KM7T-90QA", 1);
  }

  static Map<String, Double> percents(InkMixture mixture) {
    Map<String, Double> percents = new HashMap<>();
    mixture.units().keySet().forEach(ink -> percents.put(ink.name(), mixture.percent(ink)));
    return percents;
  }

  static Lab aim(InkMixture mixture) {
    PrintModel model = StraightPress.model();
    double[] lab = model.print(new double[model.parameters()], model.tints(List.of(mixture)));
    return new Lab(lab[0], lab[1], lab[2]);
  }

  /**
   * Reads the strip; patches in one box are read once.
   *
   * @param errors ΔL*, Δa*, Δb* a box
   */
  static MatchedStrip read(Strip strip, double[] errors) {
    Map<BoxMm, Reading> byBox = new HashMap<>();
    List<Reading> readings = new ArrayList<>();
    List<PatchReading> matched = new ArrayList<>();
    for (Patch patch : strip.patches()) {
      if (!byBox.containsKey(patch.box())) {
        int at = 3 * byBox.size();
        Lab aim = patch.aim().lab();
        Lab lab = new Lab(aim.l() + errors[at], aim.a() + errors[at + 1], aim.b() + errors[at + 2]);
        Reading reading = new Reading(patch.id(), "", Map.of(), lab, readings.size() + 1);
        byBox.put(patch.box(), reading);
        readings.add(reading);
      }
      matched.add(new PatchReading(patch, byBox.get(patch.box())));
    }
    Measurement measurement =
        new Measurement(
            "m.txt",
            Map.of(),
            MeasurementCondition.UNKNOWN,
            Measurement.LabOrigin.LAB,
            true,
            readings,
            List.of());
    return new MatchedStrip(strip, measurement, new Alignment("by-id", 1), matched, List.of());
  }

  /** What these parameters of the model move, a patch of the strip each. */
  static double[] errors(Strip strip, double[] parameters) {
    PrintModel model = StraightPress.model();
    return StraightPress.errors(
        model, parameters, model.tints(strip.patches().stream().map(Patch::mixture).toList()));
  }
}
