package selvage.review;

import java.io.ByteArrayOutputStream;
import java.io.IOException;
import java.util.ArrayList;
import java.util.LinkedHashMap;
import java.util.List;
import java.util.Map;
import java.util.Optional;
import java.util.Set;
import java.util.TreeSet;
import selvage.color.AimModel;
import selvage.color.AimSource;
import selvage.color.ColorDifference;
import selvage.color.DisplayColor;
import selvage.color.Lab;
import selvage.color.ReferenceCondition;
import selvage.ink.Colorant;
import selvage.ink.InkMixture;
import selvage.strip.ChosenPatch;
import selvage.strip.JobChoice;
import selvage.strip.JobPatch;
import selvage.strip.JobSet;
import selvage.strip.PageColors;
import selvage.strip.PatchReach;
import selvage.strip.Wishes;
import selvage.survey.Census;
import selvage.survey.ColorMap;
import selvage.survey.JobFile;
import selvage.survey.JobSurvey;
import selvage.survey.PagePicture;
import selvage.survey.PageSurvey;

/**
 * A page as the operator sees it: every sample of its trim with its mixture, and what can be chosen
 * for its strip. Safe for use by many threads.
 */
public final class OpenPage {
  /** Places of the map that is sent to be drawn over the page. */
  private static final int MOST_MAP_PLACES = 600_000;

  /** In the map: paper has no patch. */
  public static final int NO_PATCH = 255;

  /** In the map: ΔE00 is coded in steps of 0.05. */
  public static final int STEPS_A_DE00 = 20;

  /** A picture that fits a screen as a whole. */
  private static final int MOST_COARSE_SAMPLES = 600_000;

  private static final int MOST_CODE = 255;
  private static final int MOST_PICTURES = 6;
  private static final double MM_PER_INCH = 25.4;

  /** Which inks, and how many places a sample. */
  private record Drawn(Set<String> plates, int block) {}

  private final JobFile file;
  private final ReferenceCondition condition;
  private final PageSurvey survey;
  private final ColorMap map;
  private final JobChoice choice;
  private final int count;
  private final int stripPage;
  private final List<PageSurvey> all;
  private JobSet automatic;
  private JobChoice ofPage;
  private final Map<Drawn, byte[]> pictures =
      new LinkedHashMap<>(16, 0.75f, true) {
        private static final long serialVersionUID = 1L;

        @Override
        protected boolean removeEldestEntry(Map.Entry<Drawn, byte[]> eldest) {
          return size() > MOST_PICTURES;
        }
      };

  /**
   * Opens a page.
   *
   * @param survey with a map
   * @param choice for the page's strip
   * @param count of patches where nothing else is asked for
   * @param stripPage the page that bears the strip which stands for this one
   * @param all the pages that the strip stands for, this one among them
   */
  OpenPage(
      JobFile file,
      ReferenceCondition condition,
      PageSurvey survey,
      JobChoice choice,
      int count,
      int stripPage,
      List<PageSurvey> all) {
    this.file = file;
    this.condition = condition;
    this.survey = survey;
    this.map = survey.census().map().orElseThrow();
    this.choice = choice;
    this.count = count;
    this.stripPage = stripPage;
    this.all = List.copyOf(all);
  }

  public JobFile file() {
    return file;
  }

  public ReferenceCondition condition() {
    return condition;
  }

  public PageSurvey survey() {
    return survey;
  }

  public ColorMap map() {
    return map;
  }

  /** The page that bears the strip which stands for this one, counted from 1. */
  public int stripPage() {
    return stripPage;
  }

  /** Whether the strip stands for all pages of the job. */
  public boolean isOfJob() {
    return all.size() > 1;
  }

  /** The job as far as this page's strip goes. */
  JobSurvey job() {
    return new JobSurvey(file, condition, all);
  }

  JobChoice choice() {
    return choice;
  }

  /** Whether there is anything to choose. */
  public boolean isInked() {
    return survey.census().inkedPercent() > 0;
  }

  /** Roughly the memory that it takes. */
  long bytes() {
    long rows = survey.census().size();
    long places = (long) map.columns() * map.lines();
    return 4 * places + rows * (80 + 2L * survey.census().colorants().size()) + 8 * places;
  }

  /** The set that would be stamped without an operator. */
  public synchronized JobSet automatic() {
    if (automatic == null) {
      automatic = choice.choose(count, Wishes.NONE);
    }
    return automatic;
  }

  /** The automatic set as something that can be changed. */
  PageChoice automaticChoice() {
    return of(automatic(), Set.of(), Set.of(), count);
  }

  /** A set that was chosen, as something that can be changed. */
  static PageChoice of(JobSet set, Set<InkMixture> kept, Set<InkMixture> dropped, int count) {
    List<ChosenPatch> patches = new ArrayList<>();
    for (JobPatch patch : set.patches()) {
      patches.add(new ChosenPatch(patch.mixture(), patch.reason()));
    }
    return new PageChoice(patches, kept, dropped, count, false);
  }

  /**
   * What a set is worth, and what each of its patches stands for.
   *
   * @param made null for the automatic set
   */
  public JobSet set(PageChoice made) {
    return made == null ? automatic() : choice.of(made.patches());
  }

  /** The same, with the place of each patch's largest area on the page. */
  public JobSet located(JobSet set) {
    return set.located(List.of(new PageColors(survey.page(), survey.dpi(), survey.census())));
  }

  /** A strip for several pages is chosen for all of them, and seen on one. */
  private synchronized JobChoice ofPage() {
    if (ofPage == null) {
      Census census = survey.census();
      ofPage = choice.census() == census ? choice : new JobChoice(census, List.of());
    }
    return ofPage;
  }

  /** The page's inks, process first. */
  public List<Colorant> colorants() {
    return survey.census().colorants();
  }

  /**
   * The page as it will print, its paper's colour included, as PNG (sRGB).
   *
   * @param plates the names of the inks that are shown; others are left out
   * @param fine whether every place of the map is a sample, instead of the mean of a few
   */
  public byte[] picture(Set<String> plates, boolean fine) throws IOException {
    int block = fine ? 1 : block();
    Drawn shown = new Drawn(new TreeSet<>(plates), block);
    synchronized (pictures) {
      byte[] known = pictures.get(shown);
      if (known != null) {
        return known;
      }
    }
    Census census = survey.census();
    ByteArrayOutputStream out = new ByteArrayOutputStream(1 << 20);
    double dpi = survey.dpi() / map.step() / block;
    PagePicture.write(map, colors(census, shown.plates()), block, dpi, out);
    byte[] picture = out.toByteArray();
    synchronized (pictures) {
      pictures.put(shown, picture);
    }
    return picture;
  }

  /** So many places become one sample of a picture that is seen whole. */
  private int block() {
    int block = 1;
    while ((map.columns() / block) * (map.lines() / block) > MOST_COARSE_SAMPLES) {
      block++;
    }
    return block;
  }

  /** Red, green and blue of every row, with some inks alone. */
  private byte[] colors(Census census, Set<String> shown) {
    int columns = census.colorants().size();
    boolean isAll = true;
    boolean[] isShown = new boolean[columns];
    for (int c = 0; c < columns; c++) {
      isShown[c] = shown.contains(census.colorants().get(c).name());
      isAll &= isShown[c];
    }
    float[] labs = census.labs();
    if (!isAll) {
      char[] tints = census.tints().clone();
      for (int at = 0; at < tints.length; at++) {
        tints[at] = isShown[at % columns] ? tints[at] : 0;
      }
      labs = new float[3 * census.size()];
      new AimModel(condition, survey.spots())
          .aims(census.colorants(), tints, labs, new AimSource[census.size()]);
    }
    byte[] rgb = new byte[3 * census.size()];
    new DisplayColor().encode(labs, census.size(), rgb, 0);
    return rgb;
  }

  /** Which patch each place of the page is nearest to, and how far it is. */
  public static final class Nearness {
    private final int columns;
    private final int lines;
    private final int samples;
    private final byte[] bytes;

    private Nearness(int columns, int lines, int samples) {
      this.columns = columns;
      this.lines = lines;
      this.samples = samples;
      this.bytes = new byte[2 * columns * lines];
    }

    /** Places along. */
    public int columns() {
      return columns;
    }

    /** Places across. */
    public int lines() {
      return lines;
    }

    /** Samples of the page's picture from one place to the next. */
    public int samples() {
      return samples;
    }

    /**
     * The patches' numbers line by line ({@link #NO_PATCH} for paper), then as many ΔE00 in steps
     * of 1 / {@link #STEPS_A_DE00}. The array is the map's own; nobody may write to it.
     */
    public byte[] bytes() {
      return bytes;
    }
  }

  /** Draws up the map for a set. */
  public Nearness nearness(JobSet set) {
    Census census = survey.census();
    PatchReach reach = ofPage().reach(set.patches());
    byte[] patchOf = new byte[census.size()];
    byte[] codeOf = new byte[census.size()];
    for (int row = 0; row < patchOf.length; row++) {
      int patch = reach.patch(row);
      patchOf[row] = (byte) (patch < 0 ? NO_PATCH : patch);
      codeOf[row] = (byte) Math.min(MOST_CODE, Math.round(reach.de00(row) * STEPS_A_DE00));
    }
    int step = 1;
    while ((long) (map.columns() / step + 1) * (map.lines() / step + 1) > MOST_MAP_PLACES) {
      step++;
    }
    int columns = (map.columns() + step - 1) / step;
    int lines = (map.lines() + step - 1) / step;
    Nearness nearness = new Nearness(columns, lines, step);
    for (int line = 0; line < lines; line++) {
      for (int column = 0; column < columns; column++) {
        int row = map.rowAt(column * step, line * step);
        int at = line * columns + column;
        nearness.bytes[at] = patchOf[row];
        nearness.bytes[columns * lines + at] = codeOf[row];
      }
    }
    return nearness;
  }

  /**
   * The mixture at a place.
   *
   * @param mixture what prints there
   * @param aim its colour; absolute, D50
   * @param areaPercent the share of the counted area that has exactly it
   * @param patch the number of the nearest patch in the set; -1 on paper
   * @param de00 how far that is; 0 on paper
   */
  public record Spot(InkMixture mixture, Lab aim, double areaPercent, int patch, double de00) {}

  /**
   * What prints at a place of the picture.
   *
   * @param x places from the left
   * @param y places from the top
   * @return empty outside
   */
  public Optional<Spot> at(int x, int y, JobSet set) {
    if (x < 0 || y < 0 || x >= map.columns() || y >= map.lines()) {
      return Optional.empty();
    }
    Census census = survey.census();
    int row = map.rowAt(x, y);
    InkMixture mixture = census.mixture(row);
    Lab aim = census.aim(row).lab();
    int nearest = -1;
    double least = 0;
    for (int i = 0; i < set.patches().size() && !mixture.isPaper(); i++) {
      double de00 = ColorDifference.de00(aim, set.patches().get(i).aim().lab());
      if (nearest < 0 || de00 < least) {
        nearest = i;
        least = de00;
      }
    }
    return Optional.of(new Spot(mixture, aim, census.areaPercent(row), nearest, least));
  }

  /** The width of the picture in print, millimetres. */
  public double widthMm() {
    return map.width() * MM_PER_INCH / survey.dpi();
  }

  /** The height of the picture in print, millimetres. */
  public double heightMm() {
    return map.height() * MM_PER_INCH / survey.dpi();
  }
}
