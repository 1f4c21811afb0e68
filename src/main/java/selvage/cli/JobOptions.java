package selvage.cli;

import java.nio.file.Path;
import java.util.List;
import picocli.CommandLine.Mixin;
import picocli.CommandLine.Option;
import picocli.CommandLine.Parameters;
import selvage.survey.AreaKind;

/** The options of the commands that read a job. */
final class JobOptions {
  @Parameters(index = "0", paramLabel = "JOB", description = "The job: a PDF, TIFF or JPEG file.")
  Path job;

  @Option(
      names = "--condition",
      paramLabel = "NAME|FILE",
      description =
          "Reference printing condition: a built-in name, an ICC output profile, or a CGATS"
              + " characterization file. Default: the job's output intent, else FOGRA39.")
  String condition;

  @Option(
      names = "--pages",
      paramLabel = "RANGES",
      description = "Pages to take, for example 1-3,7. Default: all.")
  String pages;

  @Option(
      names = "--dpi",
      paramLabel = "N",
      defaultValue = "150",
      description = "Samples an inch, 18 to 1200. Default: ${DEFAULT-VALUE}.")
  double dpi;

  @Option(
      names = "--area",
      paramLabel = "BOX",
      defaultValue = "trim",
      description = "What is counted: trim, bleed or media. Default: ${DEFAULT-VALUE}.")
  AreaKind area;

  @Option(
      names = "--spots",
      paramLabel = "FILE",
      description =
          "Spot colour library (CGATS). May be given several times; the first that has a"
              + " colour counts.")
  List<Path> spots = List.of();

  @Mixin OutputOptions output = new OutputOptions();
}
