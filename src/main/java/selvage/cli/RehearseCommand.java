package selvage.cli;

import java.io.IOException;
import java.io.PrintWriter;
import java.nio.file.Path;
import java.util.List;
import java.util.Map;
import java.util.Optional;
import java.util.OptionalInt;
import java.util.TreeMap;
import java.util.concurrent.Callable;
import picocli.CommandLine.Command;
import picocli.CommandLine.Mixin;
import picocli.CommandLine.Model.CommandSpec;
import picocli.CommandLine.Option;
import picocli.CommandLine.ParameterException;
import picocli.CommandLine.Parameters;
import picocli.CommandLine.Spec;
import selvage.finding.InputException;
import selvage.measurement.Drift;
import selvage.measurement.LabShift;
import selvage.measurement.Rehearsal;
import selvage.measurement.StripChoice;
import selvage.report.RehearsalReport;
import selvage.workflow.RehearseProof;

/** {@code rehearse STRIPS.json -o MEASURED.txt}. */
@Command(
    name = "rehearse",
    description =
        "Prints and measures a proof's strips on a virtual proofing device that drifts as you say."
            + " The file says in its header that it is SIMULATED.",
    footer = {
      "",
      "Colorants are C, M, Y, K or a spot colour's name. Options may be given several times."
    })
final class RehearseCommand implements Callable<Integer> {
  @Spec CommandSpec spec;

  @Parameters(
      index = "0",
      paramLabel = "STRIPS.json",
      description = "What stamp wrote beside the proof.")
  Path strips;

  @Option(
      names = {"-o", "--output"},
      required = true,
      paramLabel = "MEASURED.txt",
      description = "Where the invented measurement goes (CGATS text).")
  Path target;

  @Option(
      names = "--tone",
      paramLabel = "INK=PERCENT",
      description =
          "Tone value change at 50 %%, -25 to 25, for example C=+3,M=-2. Nothing changes at 0 and"
              + " 100 %%.")
  List<String> tone = List.of();

  @Option(
      names = "--density",
      paramLabel = "INK=PERCENT",
      description = "Change of the solid's density in percent of itself, -50 to 50.")
  List<String> density = List.of();

  @Option(
      names = "--paper",
      paramLabel = "DL,DA,DB",
      description = "Shift of the paper in CIELAB, for example -1,0,3.")
  String paper;

  @Option(
      names = "--spot",
      paramLabel = "NAME=DL,DA,DB",
      description = "Shift of a spot ink's solid in CIELAB; the name all means all others.")
  List<String> spots = List.of();

  @Option(
      names = "--noise",
      paramLabel = "DE",
      defaultValue = "0",
      description =
          "Noise of the readings, root mean square CIELAB 1976 difference, 0 to 20. Default:"
              + " ${DEFAULT-VALUE}.")
  double noise;

  @Option(
      names = "--seed",
      paramLabel = "N",
      defaultValue = "1",
      description = "Seed of the noise. Default: ${DEFAULT-VALUE}.")
  long seed;

  @Option(
      names = "--condition",
      paramLabel = "NAME|FILE",
      description = "Reference printing condition. Default: the one that the strips file names.")
  String condition;

  @Option(names = "--strip", paramLabel = "ID", description = "Only this strip. Default: all.")
  String strip;

  @Option(
      names = "--page",
      paramLabel = "N",
      description = "Only this page's strip, from 1. Default: all.")
  Integer page;

  @Mixin OutputOptions output = new OutputOptions();

  @Override
  public Integer call() throws InputException, IOException {
    StripChoice choice =
        new StripChoice(
            Optional.ofNullable(strip),
            page == null ? OptionalInt.empty() : OptionalInt.of(page),
            false);
    Rehearsal rehearsal =
        new RehearseProof(choice, Optional.ofNullable(condition), drift()).run(strips, target);
    PrintWriter out = spec.commandLine().getOut();
    output.writeJson(out, json -> RehearsalReport.writeJson(rehearsal, target.toString(), json));
    if (!output.quiet && !output.isJsonOnStandardOutput()) {
      out.print(RehearsalReport.text(rehearsal, target.toString()));
      out.flush();
    }
    return ExitStatus.DONE;
  }

  private Drift drift() {
    Map<String, LabShift> shifts = new TreeMap<>();
    for (String setting : spots) {
      int equals = equalsSign("--spot", setting);
      shifts.put(setting.substring(0, equals), shift("--spot", setting.substring(equals + 1)));
    }
    LabShift others = shifts.remove("all");
    try {
      return new Drift(
          percents("--tone", tone),
          percents("--density", density),
          paper == null ? LabShift.NONE : shift("--paper", paper),
          shifts,
          others == null ? LabShift.NONE : others,
          noise,
          seed);
    } catch (IllegalArgumentException e) {
      throw wrong(e.getMessage());
    }
  }

  private Map<String, Double> percents(String option, List<String> settings) {
    Map<String, Double> percents = new TreeMap<>();
    for (String setting : settings) {
      for (String part : parts(setting)) {
        int equals = equalsSign(option, part);
        percents.put(
            colorant(part.substring(0, equals).strip()),
            number(option, part.substring(equals + 1)));
      }
    }
    return percents;
  }

  /** Parted at commas, unless a comma belongs to a colorant's name. */
  private static List<String> parts(String setting) {
    List<String> parts = List.of(setting.split(",", -1));
    return parts.stream().allMatch(part -> part.indexOf('=') > 0) ? parts : List.of(setting);
  }

  private static String colorant(String name) {
    return switch (name) {
      case "C" -> "Cyan";
      case "M" -> "Magenta";
      case "Y" -> "Yellow";
      case "K" -> "Black";
      default -> name;
    };
  }

  private int equalsSign(String option, String setting) {
    int equals = setting.lastIndexOf('=');
    if (equals <= 0) {
      throw wrong(option + ": expected NAME=VALUE, found \"" + setting + "\"");
    }
    return equals;
  }

  private LabShift shift(String option, String text) {
    String[] parts = text.split(",", -1);
    if (parts.length != 3) {
      throw wrong(option + ": expected three numbers DL,DA,DB, found \"" + text + "\"");
    }
    try {
      return new LabShift(
          number(option, parts[0]), number(option, parts[1]), number(option, parts[2]));
    } catch (IllegalArgumentException e) {
      throw wrong(option + ": " + e.getMessage());
    }
  }

  private double number(String option, String text) {
    try {
      return Double.parseDouble(text.strip());
    } catch (NumberFormatException e) {
      throw wrong(option + ": expected a number, found \"" + text + "\"");
    }
  }

  private ParameterException wrong(String message) {
    return new ParameterException(spec.commandLine(), message);
  }
}
