package selvage.measurement;

import java.util.ArrayList;
import java.util.List;
import java.util.Locale;
import java.util.Optional;
import selvage.color.ColorDifference;
import selvage.color.Lab;
import selvage.finding.Finding;
import selvage.measurement.Repeatability.OddReading;
import selvage.measurement.Repeatability.PatchSpread;
import selvage.measurement.Repeats.Sourced;
import selvage.strip.Patch;

/** Gathers how repeated readings differ from their means. */
final class RepeatSpread {
  private final List<PatchSpread> spreads = new ArrayList<>();
  private final List<OddReading> odd = new ArrayList<>();
  private int readings;
  private double sum;
  private double squares;
  private double squares76;
  private double most;

  /** Takes the readings of a patch, two or more. */
  void add(Patch patch, List<Sourced> list) {
    Lab mean = Repeats.meanOf(list);
    double own = 0;
    double ownMost = 0;
    for (Sourced one : list) {
      double difference = ColorDifference.de00(mean, one.reading().lab());
      own += difference;
      ownMost = Math.max(ownMost, difference);
      squares += difference * difference;
      double plain = ColorDifference.de76(mean, one.reading().lab());
      squares76 += plain * plain;
    }
    spreads.add(
        new PatchSpread(patch.id(), list.size(), Math.min(ownMost, own / list.size()), ownMost));
    readings += list.size();
    sum += own;
    most = Math.max(most, ownMost);
  }

  /** Takes a reading that was left out. */
  void addOdd(Patch patch, Sourced one, double de00) {
    odd.add(new OddReading(patch.id(), one.source(), one.reading().line(), de00));
  }

  /** What was gathered; empty where no patch was read twice. */
  Optional<Repeatability> repeatability(List<String> sources) {
    int patches = spreads.size();
    return patches == 0
        ? Optional.empty()
        : Optional.of(
            new Repeatability(
                patches,
                readings,
                Math.min(most, sum / readings),
                most,
                Math.sqrt(squares / (readings - patches)),
                Math.sqrt(squares76 / (readings - patches)),
                sources,
                spreads,
                odd));
  }

  static Finding note(Repeatability found) {
    return Finding.note(
        "readings-averaged",
        String.format(
            Locale.ROOT,
            "%d patches were read more than once (%d readings) and averaged; mean ΔE00 from the"
                + " mean %.2f, greatest %.2f",
            found.patches(),
            found.readings(),
            found.meanDe00(),
            found.maxDe00()));
  }
}
