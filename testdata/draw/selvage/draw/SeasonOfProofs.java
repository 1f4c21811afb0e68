package selvage.draw;

import java.io.IOException;
import java.nio.charset.StandardCharsets;
import java.nio.file.Files;
import java.nio.file.Path;
import java.time.Duration;
import java.time.Instant;
import java.util.ArrayList;
import java.util.List;
import java.util.Locale;
import java.util.Random;

/**
 * Invents {@code testdata/season.csv}: twelve weeks of an invented shop with three proofing systems
 * and two substrates. Nothing in it was measured. Each device has its story:
 *
 * <ul>
 *   <li>Alder is well kept; in the last three weeks its substrate is a bluish batch.
 *   <li>Birch drifts in yellow and black until it is calibrated in the seventh week; later its
 *       magenta solid grows too strong, which the job hardly uses.
 *   <li>Cedar has a wrong recipe for the spot Dune Red from the fifth week to the eighth, and too
 *       much cyan in the last of them.
 * </ul>
 */
public final class SeasonOfProofs {
  private static final Instant BEGIN = Instant.parse("2026-08-31T06:00:00Z");
  private static final int DAYS = 82;
  private static final int PROOFS = 50;
  private static final String[] DEVICES = {"Alder", "Birch", "Cedar"};
  private static final String[] SUBSTRATES = {"semi-matt 230", "gloss 250"};

  /** The columns, one a device's figure. */
  static final String HEADINGS =
      "time,event,proofing_system,substrate,job,page,tone_c,tone_m,tone_y,tone_k,density_c,"
          + "density_m,density_y,density_k,paper_l,paper_a,paper_b,dune_red_l,dune_red_a,"
          + "dune_red_b,noise,seed,note";

  private record Row(Instant time, String text) {}

  private SeasonOfProofs() {}

  /** Writes the file that its only argument names. */
  public static void main(String[] args) throws IOException {
    Files.writeString(Path.of(args[0]), text(), StandardCharsets.UTF_8);
  }

  /** The whole file. */
  static String text() {
    List<Row> rows = new ArrayList<>();
    for (int device = 0; device < DEVICES.length; device++) {
      Random random = new Random(100 + device);
      for (int i = 0; i < PROOFS; i++) {
        double day = DAYS * (i + random.nextDouble()) / PROOFS;
        Instant time =
            BEGIN.plus(Duration.ofMinutes(Math.round(day) * 24 * 60 + random.nextInt(600)));
        rows.add(new Row(time, proof(device, day, time, rows.size() + 1, random)));
      }
    }
    rows.add(calibration("2026-10-12T05:30:00Z", "Birch", "linearised anew after a drift"));
    rows.add(calibration("2026-10-27T05:30:00Z", "Cedar", "recipe of Dune Red set right"));
    rows.sort((one, other) -> one.time().compareTo(other.time()));
    StringBuilder text = new StringBuilder();
    text.append(
        "# INVENTED: a season of an invented shop. Nothing here was printed or measured.\n");
    text.append("# Drifts as rehearse takes them; testdata/draw makes this file.\n");
    text.append(HEADINGS).append('\n');
    rows.forEach(row -> text.append(row.text()).append('\n'));
    return text.toString();
  }

  private static Row calibration(String time, String device, String note) {
    return new Row(
        Instant.parse(time), time + ",calibration," + device + ",,,,,,,,,,,,,,,,,,,," + note);
  }

  private static String proof(int device, double day, Instant time, int number, Random random) {
    double[] figures = new double[14];
    for (int i = 0; i < 4; i++) {
      figures[i] = 0.4 * random.nextGaussian();
      figures[4 + i] = 0.7 * random.nextGaussian();
    }
    for (int i = 8; i < 14; i++) {
      figures[i] = 0.2 * random.nextGaussian();
    }
    int substrate = device == 0 ? 0 : random.nextInt(4) == 0 ? 1 : 0;
    figures[8] += substrate == 1 ? 0.4 : 0;
    figures[10] += substrate == 1 ? -0.5 : 0;
    switch (device) {
      case 0 -> {
        if (day > 61) {
          figures[9] += 0.3;
          figures[10] -= 2.4;
        }
      }
      case 1 -> {
        if (day < 42) {
          figures[2] += 0.11 * day;
          figures[3] += 0.10 * day;
        } else if (day > 60) {
          figures[5] += 0.45 * (day - 60);
        }
      }
      default -> {
        if (day > 28 && day < 57) {
          figures[11] += 2.0;
          figures[12] -= 5.0;
          figures[13] -= 4.0;
          figures[0] += day > 51 ? 4.5 : 0;
        }
      }
    }
    StringBuilder text = new StringBuilder();
    text.append(time)
        .append(",proof,")
        .append(DEVICES[device])
        .append(',')
        .append(SUBSTRATES[substrate])
        .append(String.format(Locale.ROOT, ",label %03d,%d", number, 1 + random.nextInt(2)));
    for (double figure : figures) {
      text.append(String.format(Locale.ROOT, ",%.2f", figure));
    }
    return text.append(String.format(Locale.ROOT, ",0.25,%d,", number)).toString();
  }
}
