package selvage.measurement;

import java.util.ArrayList;
import java.util.List;
import java.util.Map;
import java.util.Optional;
import selvage.color.Aim;
import selvage.color.AimSource;
import selvage.color.Lab;
import selvage.ink.InkMixture;
import selvage.strip.BoxMm;
import selvage.strip.Coverage;
import selvage.strip.Patch;
import selvage.strip.PatchSet;
import selvage.strip.Strip;
import selvage.strip.StripsFile;
import selvage.survey.JobFile;

/**
 * A small strip, built by hand: one row, ten boxes, of which the first stands in both sets. Process
 * aims are FOGRA39 nodes as published.
 */
public final class StripFixture {
  private final List<Patch> patches = new ArrayList<>();
  private int column;

  /** A measurement of the strip, CGATS text: every reading as far from its aim. */
  public static String measured(String id, double dl, double da, double db) {
    StringBuilder text =
        new StringBuilder(
            """
            CGATS.17
            STRIP_ID "%s"
            NUMBER_OF_FIELDS 4
            BEGIN_DATA_FORMAT
            SAMPLE_ID LAB_L LAB_A LAB_B
            END_DATA_FORMAT
            BEGIN_DATA
            """
                .formatted(id));
    for (Patch patch : strip(id, 1).patches()) {
      Lab aim = patch.aim().lab();
      text.append(patch.id()).append(' ').append(aim.l() + dl).append(' ');
      text.append(aim.a() + da).append(' ').append(aim.b() + db).append('\n');
    }
    return text.append("END_DATA\n").toString();
  }

  /** The strip that most tests use. */
  public static Strip strip(String id, int page) {
    StripFixture fixture = new StripFixture();
    fixture.both("solid", Map.of("Cyan", 100.0), new Lab(55, -37, -50), 20);
    fixture.job("spot-solid", Map.of("Dune Red", 100.0), new Lab(46, 60, 40), "library", 50);
    fixture.job("spot-tint", Map.of("Dune Red", 50.0), new Lab(70, 30, 19), "predicted", 10);
    fixture.job("flat", Map.of("Magenta", 40.0), new Lab(76.42, 25.78, -7.37), "condition", 20);
    fixture.standard("substrate", Map.of(), new Lab(95, 0, -2));
    fixture.standard("solid", Map.of("Magenta", 100.0), new Lab(48, 74, -3));
    fixture.standard("solid", Map.of("Yellow", 100.0), new Lab(89, -5, 93));
    fixture.standard("solid", Map.of("Black", 100.0), new Lab(16, 0, 0));
    fixture.standard(
        "near-neutral", Map.of("Cyan", 40.0, "Magenta", 30.0, "Yellow", 30.0), new Lab(69, 0, 0));
    fixture.standard("substrate", Map.of(), new Lab(95, 0, -2));
    return fixture.build(id, page);
  }

  /** A proof with these strips. */
  public static StripsFile file(Strip... strips) {
    return new StripsFile(
        new JobFile("flyer.pdf", "0".repeat(64), strips.length),
        "flyer-proof.pdf",
        "FOGRA39",
        "built-in",
        List.of(strips));
  }

  /** A job patch, in a box of its own. */
  public StripFixture job(
      String role, Map<String, Double> inks, Lab aim, String source, double represents) {
    column++;
    add(PatchSet.JOB, role, inks, aim, AimSource.ofWord(source), represents);
    return this;
  }

  /** A standard patch, in a box of its own. */
  public StripFixture standard(String role, Map<String, Double> inks, Lab aim) {
    column++;
    add(PatchSet.STANDARD, role, inks, aim, AimSource.CONDITION_NODE, 0);
    return this;
  }

  /** A patch of both sets, in one box. */
  public StripFixture both(String role, Map<String, Double> inks, Lab aim, double represents) {
    column++;
    add(PatchSet.JOB, role, inks, aim, AimSource.CONDITION_NODE, represents);
    add(PatchSet.STANDARD, role, inks, aim, AimSource.CONDITION_NODE, 0);
    return this;
  }

  private void add(
      PatchSet set,
      String role,
      Map<String, Double> inks,
      Lab aim,
      AimSource source,
      double represents) {
    long number = patches.stream().filter(patch -> patch.set() == set).count() + 1;
    patches.add(
        new Patch(
            (set == PatchSet.JOB ? "J0" : "S0") + number,
            set,
            role,
            InkMixture.ofPercents(inks),
            new Aim(aim, source),
            represents,
            represents,
            1,
            column,
            new BoxMm(10.0 * column, 0, 9, 9),
            Optional.empty(),
            Optional.empty()));
  }

  /** The strip. */
  public Strip build(String id, int page) {
    return new Strip(
        id,
        page,
        1,
        new Strip.Place("bottom", true, 0, 0, 600, 60, 1, false),
        new Strip.Reader("handheld-spot", 4.5),
        patches,
        new Coverage(90, 95, 0.5, 40),
        List.of());
  }

  private StripFixture() {}

  /** An empty strip, to be filled. */
  public static StripFixture empty() {
    return new StripFixture();
  }
}
