package selvage.measurement;

import java.util.ArrayList;
import java.util.HashMap;
import java.util.List;
import java.util.Map;
import java.util.NavigableMap;
import java.util.Objects;
import java.util.Random;
import java.util.TreeMap;
import java.util.function.UnaryOperator;
import selvage.color.AimModel;
import selvage.color.Correction;
import selvage.color.Lab;
import selvage.color.ReferenceCondition;
import selvage.color.ReferenceWhite;
import selvage.color.SpotInk;
import selvage.color.Xyz;
import selvage.finding.Finding;
import selvage.ink.Colorant;
import selvage.ink.InkMixture;
import selvage.ink.Tint;
import selvage.strip.Strip;

/**
 * An invented proofing device and instrument: prints a strip with a {@link Drift} and reads it.
 *
 * <p>The model is our own and plain on purpose. Tints move along t + 4·d·t·(1 − t), t from 0 to 1
 * and d the change at 0.5: nothing happens to paper and solids. The drifted tints, with spot solids
 * shifted, get their colour from the aim model. A change p of a solid's density multiplies each of
 * X, Y, Z by ((1 − a) + a·r^(1+p)) / ((1 − a) + a·r), with a the tint and r the solid's over the
 * paper's (densities of transparent layers add up; Murray and Davies for the tint [murray1936]). A
 * shifted paper multiplies X, Y, Z of everything printed on it. What is read is the strip's aim
 * plus the difference between the drifted and the undrifted colour in CIELAB, plus noise: without
 * drift and noise exactly the aim.
 */
public final class VirtualDevice {
  private static final ReferenceWhite WHITE = ReferenceWhite.ISO_13655;

  private final Drift drift;
  private final AimModel sound; // null where nothing moves
  private final AimModel drifted;
  private final Map<String, double[]> solids; // XYZ of the solid over the paper's, by colorant
  private final List<Finding> findings;
  private final UnaryOperator<InkMixture> sent;

  private VirtualDevice(
      Drift drift,
      AimModel sound,
      AimModel drifted,
      Map<String, double[]> solids,
      List<Finding> findings,
      UnaryOperator<InkMixture> sent) {
    this.drift = drift;
    this.sound = sound;
    this.drifted = drifted;
    this.solids = solids;
    this.findings = findings;
    this.sent = sent;
  }

  /** A device whose printed colours are the aims; only its readings may be noisy. */
  public static VirtualDevice withoutDrift(double noise, long seed) {
    Drift drift =
        new Drift(Map.of(), Map.of(), LabShift.NONE, Map.of(), LabShift.NONE, noise, seed);
    return new VirtualDevice(drift, null, null, Map.of(), List.of(), UnaryOperator.identity());
  }

  /**
   * A device that drifts.
   *
   * @param condition what the process inks print without drift
   * @param strips all strips of the proof; their aims tell of its spot inks
   */
  public static VirtualDevice of(ReferenceCondition condition, List<Strip> strips, Drift drift) {
    Objects.requireNonNull(drift, "drift");
    StripSpots spots = StripSpots.of(strips, condition.paper());
    Map<String, SpotInk> shifted = new HashMap<>();
    spots.inks().forEach((name, ink) -> shifted.put(name, shifted(ink, drift.spot(name))));
    AimModel sound = new AimModel(condition, spots.inks());
    Xyz paper = WHITE.toXyz(condition.paper());
    Map<String, double[]> solids = new HashMap<>();
    for (String name : drift.density().keySet()) {
      Colorant colorant = Colorant.named(name);
      if (!colorant.isSpot() || spots.inks().containsKey(name)) {
        Xyz solid = WHITE.toXyz(sound.aim(InkMixture.of(colorant, 100)).lab());
        solids.put(name, ratios(solid, paper));
      }
    }
    return new VirtualDevice(
        drift,
        sound,
        new AimModel(condition, shifted),
        solids,
        spots.findings(),
        UnaryOperator.identity());
  }

  /**
   * The same device, fed through a correction: it prints what the correction sends for each
   * mixture, and is still aimed at the mixture asked for.
   *
   * @throws IllegalStateException of a device made without a condition
   */
  public VirtualDevice through(Correction correction) {
    if (sound == null) {
      throw new IllegalStateException("a device without a condition prints aims as they are");
    }
    return new VirtualDevice(drift, sound, drifted, solids, findings, correction::of);
  }

  private static SpotInk shifted(SpotInk ink, LabShift shift) {
    NavigableMap<Double, Lab> ramp = new TreeMap<>();
    ink.ramp().forEach((tint, lab) -> ramp.put(tint, shift.applied(lab, tint / 100)));
    return new SpotInk(ink.name(), ramp, ink.source());
  }

  private static double[] ratios(Xyz color, Xyz paper) {
    return new double[] {
      color.x() / paper.x(), color.y() / paper.y(), color.z() / paper.z(),
    };
  }

  /** What the device had to guess of the proof's spot inks. */
  public List<Finding> findings() {
    return findings;
  }

  /**
   * Prints and reads a strip.
   *
   * @return a reading for each patch on the sheet, in reading order; the same for the same seed
   */
  public List<Reading> read(Strip strip) {
    Random random = new Random(drift.seed() ^ (0x9E3779B97F4A7C15L * strip.page()));
    double deviation = drift.noise() / Math.sqrt(3);
    List<Reading> readings = new ArrayList<>();
    for (SheetPatch patch : SheetPatch.of(strip)) {
      Lab printed = printed(patch);
      Lab read =
          drift.noise() == 0
              ? printed
              : new LabShift(
                      deviation * random.nextGaussian(),
                      deviation * random.nextGaussian(),
                      deviation * random.nextGaussian())
                  .applied(printed, 1);
      readings.add(
          new Reading(
              patch.first().id(), patch.mixture().toString(), Map.of(), read, readings.size() + 1));
    }
    return readings;
  }

  private Lab printed(SheetPatch patch) {
    Lab aim = patch.first().aim().lab();
    if (sound == null) {
      return aim;
    }
    Lab before = sound.aim(patch.mixture()).lab();
    Lab after = drifted(sent.apply(patch.mixture()));
    return new Lab(
        Math.max(0, aim.l() + after.l() - before.l()),
        aim.a() + after.a() - before.a(),
        aim.b() + after.b() - before.b());
  }

  private Lab drifted(InkMixture mixture) {
    Map<Colorant, Integer> units = new HashMap<>();
    mixture.units().forEach((colorant, tint) -> units.put(colorant, moved(colorant, tint)));
    InkMixture moved = InkMixture.ofUnits(units);
    Lab lab = drifted.aim(moved).lab();
    if (solids.isEmpty() && drift.paper().isNone()) {
      return lab;
    }
    Xyz color = WHITE.toXyz(lab);
    double[] factors = paperFactors();
    moved.units().forEach((colorant, tint) -> thicken(factors, colorant, tint));
    return WHITE.toLab(
        new Xyz(color.x() * factors[0], color.y() * factors[1], color.z() * factors[2]));
  }

  private int moved(Colorant colorant, int tint) {
    double t = (double) tint / Tint.FULL;
    double change = drift.tone().getOrDefault(colorant.name(), 0.0) / 100;
    return change == 0 ? tint : Tint.ofFraction(t + 4 * change * t * (1 - t));
  }

  private double[] paperFactors() {
    Lab paper = sound.condition().paper();
    return drift.paper().isNone()
        ? new double[] {1, 1, 1}
        : ratios(WHITE.toXyz(drift.paper().applied(paper, 1)), WHITE.toXyz(paper));
  }

  private void thicken(double[] factors, Colorant colorant, int tint) {
    double[] solid = solids.get(colorant.name());
    if (solid == null) {
      return;
    }
    double a = (double) tint / Tint.FULL;
    double power = 1 + drift.density().get(colorant.name()) / 100;
    for (int axis = 0; axis < 3; axis++) {
      double r = Math.max(1e-6, solid[axis]);
      factors[axis] *= (1 - a + a * Math.pow(r, power)) / (1 - a + a * r);
    }
  }
}
