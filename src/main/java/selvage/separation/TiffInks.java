package selvage.separation;

import java.io.IOException;
import java.util.ArrayList;
import java.util.HashSet;
import java.util.List;
import java.util.Locale;
import java.util.Set;
import selvage.ink.Colorant;

/**
 * Which channels of a TIFF image are inks: by InkSet, InkNames and NumberOfInks [tiff6], section
 * 16, else by an image editor's own record of its spot channels. A channel that neither names is no
 * ink.
 */
final class TiffInks {
  private static final int NOT_CMYK = 2;

  private final TiffDirectory tags;
  private final TiffLayout layout;
  private final FindingList findings;
  private final String where;
  private final Set<String> taken = new HashSet<>();

  TiffInks(TiffDirectory tags, TiffLayout layout, FindingList findings, String where) {
    this.tags = tags;
    this.layout = layout;
    this.findings = findings;
    this.where = where;
  }

  /** The inks of a separated image, process inks with them. */
  List<InkChannel> separated() throws IOException {
    List<String> names = tags.texts(333);
    int stated = tags.integer(334, 0);
    boolean process = tags.number(332, 1) != NOT_CMYK;
    if (process && layout.samples < 4) {
      throw new IOException(
          "expected at least 4 channels of a CMYK image, found " + layout.samples);
    }
    int count = Math.min(layout.samples, Math.max(names.size(), stated));
    if (process) {
      count = Math.max(4, count);
      if (names.size() < 4) {
        List<String> spots = names;
        names = processNames();
        boolean extrasNamed = spots.size() == layout.samples - 4;
        if (extrasNamed) {
          names.addAll(spots);
          count = layout.samples;
        }
      } else {
        // What InkSet says of the first four goes before their names.
        names = new ArrayList<>(names.subList(4, names.size()));
        names.addAll(0, processNames());
      }
    } else if (count == 0) {
      count = Math.max(1, layout.samples - tags.numbers(338).length);
    }
    if (names.isEmpty() && count >= 4) {
      names = processNames();
      findings.warning(
          "ink-names-missing",
          where
              + ": its inks are not CMYK and have no names; the first four were taken as cyan,"
              + " magenta, yellow and black");
    }
    List<InkChannel> inks = new ArrayList<>();
    for (int i = 0; i < count; i++) {
      String stands = i < names.size() ? names.get(i).strip() : "";
      if (stands.equals("None")) {
        continue;
      }
      inks.add(ink(stands, i, dotRange(i)));
    }
    if (inks.isEmpty()) {
      throw new IOException("expected at least one ink, found none");
    }
    return inks;
  }

  private static List<String> processNames() {
    List<String> names = new ArrayList<>();
    for (Colorant colorant : Colorant.PROCESS) {
      names.add(colorant.name());
    }
    return names;
  }

  private InkChannel ink(String stands, int sample, double[] range) {
    for (int i = 0; i < Colorant.PROCESS.size(); i++) {
      String process = Colorant.PROCESS.get(i).name();
      if (stands.toLowerCase(Locale.ROOT).equals(process.toLowerCase(Locale.ROOT))
          && taken.add(process)) {
        return new InkChannel(process, sample, range[0], range[1], InkColor.process(i));
      }
    }
    String name = named(stands, sample);
    return new InkChannel(name, sample, range[0], range[1], InkColor.NEUTRAL);
  }

  /** A name that no other ink of the image has. */
  private String named(String stands, int sample) {
    String name = stands;
    if (stands.isEmpty() || stands.equals("All")) {
      name = "Ink " + (sample + 1);
      findings.warning(
          "ink-names-missing",
          where + ": channel " + (sample + 1) + " is an ink without a name; it is called " + name);
    }
    String unique = name;
    for (int i = 2; !taken.add(unique); i++) {
      unique = name + " (" + i + ")";
    }
    if (!unique.equals(name)) {
      findings.warning(
          "ink-name-twice",
          where + ": two channels are called " + name + "; the second is called " + unique);
    }
    return unique;
  }

  /** The sample values of no ink and of the solid, as fractions of the greatest. */
  private double[] dotRange(int ink) throws IOException {
    long[] range = tags.numbers(336);
    double most = (1 << layout.bits) - 1;
    int at = range.length >= 2 * layout.samples ? 2 * ink : 0;
    if (range.length < 2
        || range[at] == range[at + 1]
        || Math.max(range[at], range[at + 1]) > most) {
      return new double[] {0, 1};
    }
    return new double[] {range[at] / most, range[at + 1] / most};
  }

  /**
   * The spot inks among channels that are not known as inks.
   *
   * @param first the first such channel
   */
  List<InkChannel> spots(int first) throws IOException {
    List<InkChannel> inks = new ArrayList<>();
    List<ImageResources.SpotChannel> channels = new ImageResources(tags.bytes(34377)).channels();
    for (int i = 0; i < channels.size() && first + i < layout.samples; i++) {
      ImageResources.SpotChannel channel = channels.get(i);
      if (channel == null) {
        continue;
      }
      if (channel.color() == null) {
        inks.add(ink(channel.name(), first + i, new double[] {1, 0}));
      } else {
        String name = named(channel.name(), first + i);
        inks.add(new InkChannel(name, first + i, 1, 0, channel.color()));
      }
      findings.note(
          "spot-channel",
          where
              + ": its extra channel "
              + inks.get(inks.size() - 1).name()
              + " is a spot ink by the record of an image editor; white is taken as no ink");
    }
    return inks;
  }
}
