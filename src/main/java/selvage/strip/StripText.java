package selvage.strip;

import java.util.ArrayList;
import java.util.List;
import java.util.Set;
import java.util.TreeSet;
import selvage.cgats.CgatsWriter;
import selvage.color.Lab;
import selvage.ink.Colorant;
import selvage.survey.JobFile;

/**
 * Writes {@code PROOF.strip-pNNN.txt}: what one strip prints and ought to measure, as CGATS.17 text
 * for an instrument's program, one row a printed patch in reading order. {@code
 * docs/file-formats.md} lists the columns.
 */
public final class StripText {
  private StripText() {}

  /** The text of a strip's file, to be encoded in UTF-8. */
  public static String write(JobFile job, String conditionName, Strip strip) {
    TreeSet<Colorant> spots = new TreeSet<>();
    for (Patch patch : strip.patches()) {
      patch.mixture().units().keySet().stream().filter(Colorant::isSpot).forEach(spots::add);
    }
    CgatsWriter text = new CgatsWriter().table();
    text.keyword("ORIGINATOR", "Selvage");
    text.keyword("FILE_DESCRIPTOR", "Control strip " + strip.stripId());
    text.keyword("DESCRIPTOR", job.file() + ", page " + strip.page());
    text.keyword("PRINT_CONDITIONS", conditionName);
    text.comment("LAB columns are aim values: D50, 2 degree observer, absolute.");
    text.keyword("STRIP_ID", strip.stripId());
    text.keyword("STRIP_PAGE", Integer.toString(strip.page()));
    List<String> columns =
        new ArrayList<>(
            List.of("SAMPLE_ID", "SAMPLE_NAME", "ALSO_ID", "ROLE", "STRIP_ROW", "STRIP_COLUMN"));
    columns.addAll(List.of("CMYK_C", "CMYK_M", "CMYK_Y", "CMYK_K"));
    int number = 0;
    for (Colorant spot : spots) {
      String column = "SPOT_" + ++number;
      text.keyword(column + "_NAME", spot.name());
      columns.add(column);
    }
    columns.addAll(List.of("LAB_L", "LAB_A", "LAB_B", "AIM_SOURCE"));
    text.columns(columns);
    List<Patch> patches = strip.patches();
    for (int i = 0; i < patches.size(); i++) {
      Patch patch = patches.get(i);
      boolean both = i + 1 < patches.size() && patches.get(i + 1).box().equals(patch.box());
      text.row(row(patch, both ? patches.get(i + 1).id() : "-", spots));
      i += both ? 1 : 0;
    }
    return text.text();
  }

  private static List<String> row(Patch patch, String alsoId, Set<Colorant> spots) {
    List<String> cells = new ArrayList<>();
    cells.add(patch.id());
    cells.add(patch.mixture().toString());
    cells.add(alsoId);
    cells.add(patch.role());
    cells.add(Integer.toString(patch.row()));
    cells.add(Integer.toString(patch.column()));
    for (Colorant process : Colorant.PROCESS) {
      cells.add(CgatsWriter.number(patch.mixture().percent(process), 3));
    }
    for (Colorant spot : spots) {
      cells.add(CgatsWriter.number(patch.mixture().percent(spot), 3));
    }
    Lab lab = patch.aim().lab();
    cells.add(CgatsWriter.number(lab.l(), 4));
    cells.add(CgatsWriter.number(lab.a(), 4));
    cells.add(CgatsWriter.number(lab.b(), 4));
    cells.add(patch.aim().source().word());
    return cells;
  }
}
