package selvage.cli;

import java.io.IOException;
import java.io.PrintWriter;
import java.nio.file.Path;
import java.util.List;
import java.util.Map;
import java.util.Optional;
import java.util.TreeMap;
import java.util.concurrent.Callable;
import picocli.CommandLine.Model.CommandSpec;
import picocli.CommandLine.ParameterException;
import selvage.cli.Declaration.Value;
import selvage.finding.InputException;
import selvage.measurement.Drift;
import selvage.measurement.LabShift;
import selvage.measurement.Rehearsal;
import selvage.report.RehearsalReport;
import selvage.workflow.RehearseProof;

/** {@code rehearse STRIPS.json -o MEASURED.txt}. */
final class RehearseCommand implements Callable<Integer> {
  private final Declaration declaration =
      new Declaration(
          this,
          "Prints and measures a proof's strips on a virtual proofing device that drifts as you say."
              + " The file says in its header that it is SIMULATED.");

  final Value<Path> strips =
      declaration.parameter(
          0, Path.class, "STRIPS.json", null, "What stamp wrote beside the proof.");

  final Value<Path> target =
      declaration.required(
          Path.class,
          "MEASURED.txt",
          "Where the invented measurement goes (CGATS text).",
          "-o",
          "--output");

  final Value<List<String>> tone =
      declaration.options(
          String.class,
          "INK=PERCENT",
          "Tone value change at 50 %%, -25 to 25, for example C=+3,M=-2. Nothing changes at 0 and"
              + " 100 %%.",
          "--tone");

  final Value<List<String>> density =
      declaration.options(
          String.class,
          "INK=PERCENT",
          "Change of the solid's density in percent of itself, -50 to 50.",
          "--density");

  final Value<String> paper =
      declaration.option(
          String.class,
          "DL,DA,DB",
          null,
          "Shift of the paper in CIELAB, for example -1,0,3.",
          "--paper");

  final Value<List<String>> spots =
      declaration.options(
          String.class,
          "NAME=DL,DA,DB",
          "Shift of a spot ink's solid in CIELAB; the name all means all others.",
          "--spot");

  final Value<Double> noise =
      declaration.option(
          Double.class,
          "DE",
          "0",
          "Noise of the readings, root mean square CIELAB 1976 difference, 0 to 20. Default:"
              + " ${DEFAULT-VALUE}.",
          "--noise");

  final Value<Long> seed =
      declaration.option(
          Long.class, "N", "1", "Seed of the noise. Default: ${DEFAULT-VALUE}.", "--seed");

  final Value<String> condition =
      declaration.option(
          String.class,
          "NAME|FILE",
          null,
          "Reference printing condition. Default: the one that the strips file names.",
          "--condition");

  final Value<Path> correction =
      declaration.option(
          Path.class,
          "FILE",
          null,
          "Print through this correction, as score --correction writes it. Default: none.",
          "--correction");

  private final StripOptions stripOptions =
      new StripOptions(
          declaration,
          "Only this strip. Default: all.",
          "Only this page's strip, from 1. Default: all.");

  final OutputOptions output = new OutputOptions(declaration);

  RehearseCommand() {
    declaration.footer(
        "",
        "Colorants are C, M, Y, K or a spot colour's name. Options may be given several times.");
  }

  CommandSpec spec() {
    return declaration.spec();
  }

  @Override
  public Integer call() throws InputException, IOException {
    Rehearsal rehearsal =
        new RehearseProof(
                stripOptions.choice(false),
                Optional.ofNullable(condition.get()),
                drift(),
                Optional.ofNullable(correction.get()))
            .run(strips.get(), target.get());
    PrintWriter out = declaration.out();
    output.writeJson(
        out, json -> RehearsalReport.writeJson(rehearsal, target.get().toString(), json));
    if (!output.quiet.get() && !output.isJsonOnStandardOutput()) {
      out.print(RehearsalReport.text(rehearsal, target.get().toString()));
      out.flush();
    }
    return ExitStatus.DONE;
  }

  private Drift drift() {
    Map<String, LabShift> shifts = new TreeMap<>();
    for (String setting : spots.get()) {
      int equals = equalsSign("--spot", setting);
      shifts.put(setting.substring(0, equals), shift("--spot", setting.substring(equals + 1)));
    }
    LabShift others = shifts.remove("all");
    try {
      return new Drift(
          percents("--tone", tone.get()),
          percents("--density", density.get()),
          paper.get() == null ? LabShift.NONE : shift("--paper", paper.get()),
          shifts,
          others == null ? LabShift.NONE : others,
          noise.get(),
          seed.get());
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
    return declaration.misuse(message);
  }
}
