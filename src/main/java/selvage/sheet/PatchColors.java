package selvage.sheet;

import java.io.IOException;
import java.io.OutputStream;
import java.nio.charset.StandardCharsets;
import java.util.ArrayList;
import java.util.LinkedHashMap;
import java.util.List;
import java.util.Locale;
import java.util.Map;
import java.util.Optional;
import java.util.function.Function;
import org.apache.pdfbox.cos.COSArray;
import org.apache.pdfbox.cos.COSBase;
import org.apache.pdfbox.cos.COSDictionary;
import org.apache.pdfbox.cos.COSInteger;
import org.apache.pdfbox.cos.COSName;
import org.apache.pdfbox.cos.COSStream;
import org.apache.pdfbox.pdmodel.PDDocument;
import org.apache.pdfbox.pdmodel.common.function.PDFunction;
import org.apache.pdfbox.pdmodel.graphics.color.PDColorSpace;
import org.apache.pdfbox.pdmodel.graphics.color.PDDeviceCMYK;
import org.apache.pdfbox.pdmodel.graphics.color.PDICCBased;
import selvage.color.SpotInk;
import selvage.finding.Finding;
import selvage.ink.Colorant;
import selvage.ink.InkMixture;
import selvage.ink.Tint;

/**
 * The colour operators of patches. Process inks alone are DeviceCMYK; one spot alone is the job's
 * own Separation; anything else is one DeviceN of exactly the inks present.
 *
 * <p>The DeviceN's alternate is CMYK, each channel min(1, process tint + Σ spot tint · the spot's
 * solid in CMYK). It serves previews and devices without the ink; no aim rests on it.
 */
final class PatchColors {
  private static final COSName COLORANTS = COSName.getPDFName("Colorants");

  private final PDDocument document;
  private final Function<String, Optional<COSBase>> definitions;
  private final Map<String, SpotInk> inks;
  private final Map<String, COSBase> separations = new LinkedHashMap<>();
  private final Map<List<Colorant>, COSName> names = new LinkedHashMap<>();
  private final COSDictionary spaces = new COSDictionary();
  private final List<Finding> findings = new ArrayList<>();

  /**
   * Colours for one strip.
   *
   * @param definitions the job's Separation of a spot by its name, if it has one
   * @param inks what is known of spots, for those that the job itself leaves undefined
   */
  PatchColors(
      PDDocument document,
      Function<String, Optional<COSBase>> definitions,
      Map<String, SpotInk> inks) {
    this.document = document;
    this.definitions = definitions;
    this.inks = inks;
  }

  /** The colour spaces that the operators name, for the strip's resources. */
  COSDictionary colorSpaces() {
    return spaces;
  }

  /** What had to be made up. */
  List<Finding> findings() {
    return findings;
  }

  /** The operators that set the fill colour of a mixture; empty for paper, which is not painted. */
  String operators(InkMixture mixture) throws IOException {
    if (mixture.isPaper()) {
      return "";
    }
    StringBuilder operators = new StringBuilder();
    if (!mixture.hasSpot()) {
      for (Colorant process : Colorant.PROCESS) {
        operators.append(fraction(mixture.units(process))).append(' ');
      }
      return operators.append("k\n").toString();
    }
    return inSpace(List.copyOf(mixture.units().keySet()), mixture);
  }

  private String inSpace(List<Colorant> colorants, InkMixture mixture) throws IOException {
    StringBuilder operators = new StringBuilder();
    operators.append('/').append(space(colorants).getName()).append(" cs ");
    for (Colorant colorant : colorants) {
      operators.append(fraction(mixture.units(colorant))).append(' ');
    }
    return operators.append("scn\n").toString();
  }

  /** A tint as a fraction, exact to a hundred-thousandth. */
  private static String fraction(int units) {
    String text = String.format(Locale.ROOT, "%.6f", (double) units / Tint.FULL);
    int end = text.length();
    while (text.charAt(end - 1) == '0') {
      end--;
    }
    return text.substring(0, text.charAt(end - 1) == '.' ? end - 1 : end);
  }

  private COSName space(List<Colorant> colorants) throws IOException {
    COSName name = names.get(colorants);
    if (name == null) {
      name = COSName.getPDFName("CS" + (names.size() + 1));
      names.put(colorants, name);
      spaces.setItem(
          name, colorants.size() == 1 ? separation(colorants.get(0).name()) : deviceN(colorants));
    }
    return name;
  }

  private COSBase separation(String spot) {
    COSBase separation = separations.get(spot);
    if (separation == null) {
      separation = definitions.apply(spot).orElseGet(() -> madeUp(spot));
      separations.put(spot, separation);
    }
    return separation;
  }

  /** A Separation with a Lab alternate, for a spot whose definition was not found. */
  private COSBase madeUp(String spot) {
    SpotInk ink = inks.get(spot);
    findings.add(
        Finding.warning(
            "spot-definition-not-found",
            spot
                + ": the job's definition of this spot colour was not found; its patches have one"
                + " of our own, "
                + (ink == null ? "shown as black" : "shown in the colour that the aims rest on")));
    COSArray separation = new COSArray();
    separation.add(COSName.SEPARATION);
    separation.add(COSName.getPDFName(spot));
    if (ink == null) {
      separation.add(COSName.DEVICECMYK);
      separation.add(SpotDefinitions.line(new float[4], new float[] {0, 0, 0, 1}));
      return separation;
    }
    COSDictionary lab = new COSDictionary();
    lab.setItem(
        COSName.getPDFName("WhitePoint"),
        SpotDefinitions.numbers(new float[] {0.9642f, 1f, 0.8249f}));
    lab.setItem(COSName.RANGE, SpotDefinitions.numbers(new float[] {-128, 127, -128, 127}));
    COSArray alternate = new COSArray();
    alternate.add(COSName.LAB);
    alternate.add(lab);
    separation.add(alternate);
    separation.add(
        SpotDefinitions.line(
            new float[] {100, 0, 0},
            new float[] {
              (float) ink.solid().l(), (float) ink.solid().a(), (float) ink.solid().b()
            }));
    return separation;
  }

  private COSArray deviceN(List<Colorant> colorants) throws IOException {
    COSArray names = new COSArray();
    COSDictionary spots = new COSDictionary();
    List<float[]> solids = new ArrayList<>();
    for (Colorant colorant : colorants) {
      COSName name = COSName.getPDFName(colorant.name());
      names.add(name);
      if (colorant.isSpot()) {
        COSBase separation = separation(colorant.name());
        spots.setItem(name, separation);
        solids.add(solidCmyk(SpotDefinitions.array(separation)));
      } else {
        float[] solid = new float[4];
        solid[Colorant.PROCESS.indexOf(colorant)] = 1;
        solids.add(solid);
      }
    }
    COSArray space = new COSArray();
    space.add(COSName.DEVICEN);
    space.add(names);
    space.add(COSName.DEVICECMYK);
    space.add(addition(solids));
    if (spots.size() > 0) {
      COSDictionary attributes = new COSDictionary();
      attributes.setItem(COLORANTS, spots);
      space.add(attributes);
    }
    return space;
  }

  /** A spot's solid in CMYK, after the job's alternate; only for previews. */
  private static float[] solidCmyk(COSArray separation) {
    try {
      PDColorSpace alternate = PDColorSpace.create(separation.getObject(2));
      float[] solid = PDFunction.create(separation.getObject(3)).eval(new float[] {1});
      boolean four = alternate instanceof PDICCBased && alternate.getNumberOfComponents() == 4;
      if (four || alternate instanceof PDDeviceCMYK) {
        return solid;
      }
      float[] rgb = alternate.toRGB(solid);
      return new float[] {1 - rgb[0], 1 - rgb[1], 1 - rgb[2], 0};
    } catch (IOException | RuntimeException e) {
      return new float[] {0, 0, 0, 1}; // a preview in black; the ink itself is not touched
    }
  }

  /** A type 4 function: each output is min(1, Σ input · solid). */
  private COSStream addition(List<float[]> solids) throws IOException {
    int inputs = solids.size();
    StringBuilder program = new StringBuilder("{");
    for (int channel = 0; channel < 4; channel++) {
      program.append(" 0");
      for (int input = 0; input < inputs; input++) {
        float solid = Math.max(0, Math.min(1, solids.get(input)[channel]));
        if (solid > 0) {
          // Above the input lie the inputs after it, the channels done, and the sum.
          int depth = inputs - 1 - input + channel + 1;
          program.append(String.format(Locale.ROOT, " %d index %.5f mul add", depth, solid));
        }
      }
      program.append(" dup 1 gt { pop 1 } if");
    }
    program.append(' ').append(inputs + 4).append(" 4 roll");
    program.append(" pop".repeat(inputs)).append(" }");
    COSStream function = document.getDocument().createCOSStream();
    function.setItem(COSName.FUNCTION_TYPE, COSInteger.get(4));
    function.setItem(COSName.DOMAIN, unitRanges(inputs));
    function.setItem(COSName.RANGE, unitRanges(4));
    try (OutputStream out = function.createOutputStream()) {
      out.write(program.toString().getBytes(StandardCharsets.US_ASCII));
    }
    return function;
  }

  private static COSArray unitRanges(int count) {
    float[] ranges = new float[2 * count];
    for (int i = 0; i < count; i++) {
      ranges[2 * i + 1] = 1;
    }
    return SpotDefinitions.numbers(ranges);
  }
}
