package selvage.cli;

import java.util.List;
import java.util.Locale;
import java.util.Optional;
import selvage.cli.Declaration.Value;
import selvage.sheet.Edge;
import selvage.strip.JobSet;
import selvage.strip.StripLabel;

/** The options that say which strip a job gets, and what its label says. */
final class StampingOptions {
  /** What one strip stands for. */
  enum Scope {
    PAGE,
    JOB
  }

  final Value<String> standard;
  final Value<String> reader;
  private final Declaration declaration;
  private final Value<String> patches;
  private final Value<String> edge;
  private final Value<Scope> per;
  private final Value<String> evaluatedAs;
  private final Value<String> proofingSystem;
  private final Value<String> inkSet;
  private final Value<String> substrate;
  private final Value<String> profile;

  StampingOptions(Declaration declaration) {
    this.declaration = declaration;
    patches =
        declaration.option(
            String.class,
            "N|auto",
            "24",
            "Job patches a strip, 1 to 200; or auto: as many as each bring 0.5 %% more of the inked"
                + " area within ΔE00 3, at most 96. Default: ${DEFAULT-VALUE}.",
            "--patches");
    standard =
        declaration.option(
            String.class,
            "NAME|FILE",
            "full",
            "Standard strip: full, basic, a CGATS file of CMYK tints in percent, or none (paper"
                + " only). Default: ${DEFAULT-VALUE}.",
            "--standard");
    reader =
        declaration.option(
            String.class,
            "NAME|FILE",
            "handheld-spot",
            "Geometry for the instrument: handheld-spot, handheld-scan, strip-feeder, xy-table, or a"
                + " file of that form. Default: ${DEFAULT-VALUE}.",
            "--reader");
    edge =
        declaration.option(
            String.class,
            "EDGE",
            "auto",
            "Edge of the page as displayed: auto (free space, else where the sheet grows least),"
                + " top, right, bottom or left. A strip for which the sheet would grow too far gets a"
                + " page of its own behind the page. Default: ${DEFAULT-VALUE}.",
            "--edge");
    per =
        declaration.option(
            Scope.class,
            "SCOPE",
            "page",
            "One strip a page, or one for the whole job on its first page: page or job. Default:"
                + " ${DEFAULT-VALUE}.",
            "--per");
    evaluatedAs = label("what the proof is evaluated as", "--evaluated-as");
    proofingSystem = label("the proofing system", "--proofing-system");
    inkSet = label("the proofing system's inks", "--ink-set");
    substrate = label("the proofing substrate", "--substrate");
    profile = label("the simulation profile", "--profile");
  }

  private Value<String> label(String what, String name) {
    return declaration.option(
        String.class, "TEXT", "", "For the label: " + what + ". Default: not stated.", name);
  }

  /** The number of patches, or {@link JobSet#AUTO}. */
  int checkedPatches() {
    String text = patches.get().strip();
    if (text.equalsIgnoreCase("auto")) {
      return JobSet.AUTO;
    }
    int count = 0;
    try {
      count = Integer.parseInt(text);
    } catch (NumberFormatException e) {
      // Told below.
    }
    if (count < 1 || count > JobSet.MOST_PATCHES) {
      throw declaration.misuse(
          "--patches: expected 1 to " + JobSet.MOST_PATCHES + " or auto, found \"" + text + "\"");
    }
    return count;
  }

  /** Empty where the program chooses. */
  Optional<Edge> checkedEdge() {
    String word = edge.get().toLowerCase(Locale.ROOT);
    if (word.equals("auto")) {
      return Optional.empty();
    }
    Optional<Edge> named = Edge.named(word);
    if (named.isEmpty()) {
      throw declaration.misuse(
          "--edge: expected auto, top, right, bottom or left, found \"" + edge.get() + "\"");
    }
    return named;
  }

  boolean isPerJob() {
    return per.get() == Scope.JOB;
  }

  List<StripLabel.Item> labelItems() {
    return List.of(
        new StripLabel.Item("Evaluated as", evaluatedAs.get()),
        new StripLabel.Item("Proofing system", proofingSystem.get()),
        new StripLabel.Item("Ink set", inkSet.get()),
        new StripLabel.Item("Substrate", substrate.get()),
        new StripLabel.Item("Simulation profile", profile.get()));
  }
}
