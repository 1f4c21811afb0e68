package selvage.cli;

import java.nio.file.Path;
import java.util.List;
import selvage.cli.Declaration.Value;

/** The options that say how a job is read: for what condition, how finely, with which spots. */
final class ReadingOptions {
  final Value<String> condition;
  final Value<Double> dpi;
  final Value<List<Path>> spots;

  ReadingOptions(Declaration declaration) {
    condition =
        declaration.option(
            String.class,
            "NAME|FILE",
            null,
            "Reference printing condition: a built-in name, an ICC output profile, or a CGATS"
                + " characterization file. Default: the job's output intent, else FOGRA39.",
            "--condition");
    dpi =
        declaration.option(
            Double.class,
            "N",
            "150",
            "Samples an inch, 18 to 1200. Default: ${DEFAULT-VALUE}.",
            "--dpi");
    spots =
        declaration.options(
            Path.class,
            "FILE",
            "Spot colour library (CGATS or CxF3). May be given several times; the first that has a"
                + " colour counts.",
            "--spots");
  }
}
