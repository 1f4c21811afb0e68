package selvage.strip;

import com.fasterxml.jackson.core.JsonFactory;
import com.fasterxml.jackson.core.JsonGenerator;
import com.fasterxml.jackson.core.JsonProcessingException;
import com.fasterxml.jackson.core.util.DefaultIndenter;
import com.fasterxml.jackson.core.util.DefaultPrettyPrinter;
import com.fasterxml.jackson.databind.JsonNode;
import com.fasterxml.jackson.databind.ObjectMapper;
import java.io.IOException;
import java.io.InputStream;
import java.io.StringWriter;
import java.nio.charset.StandardCharsets;
import java.nio.file.Files;
import java.nio.file.NoSuchFileException;
import java.nio.file.Path;
import java.util.ArrayList;
import java.util.HashSet;
import java.util.Iterator;
import java.util.List;
import java.util.Map;
import java.util.Optional;
import java.util.Set;
import java.util.TreeMap;
import selvage.color.Aim;
import selvage.color.AimSource;
import selvage.color.Lab;
import selvage.finding.Finding;
import selvage.finding.InputException;
import selvage.ink.Colorant;
import selvage.ink.InkMixture;
import selvage.ink.Tint;
import selvage.survey.JobFile;

/**
 * Writes and reads {@code PROOF.strips.json}. Percent and millimetres are written to 0.001 or
 * better, points to 0.0001.
 */
public final class StripsJson {
  /** The version of the form, in the field {@code selvage}. */
  public static final int VERSION = 1;

  /** The largest strips file that is read, in bytes. */
  public static final int MAX_BYTES = 64 << 20;

  private StripsJson() {}

  /**
   * Writes.
   *
   * @param findings doubts that stamping left
   * @return UTF-8 text with a line end at its end
   */
  public static String write(StripsFile file, List<Finding> findings) {
    StringWriter text = new StringWriter();
    DefaultPrettyPrinter printer =
        new DefaultPrettyPrinter().withObjectIndenter(new DefaultIndenter("  ", "\n"));
    printer.indentArraysWith(new DefaultPrettyPrinter.FixedSpaceIndenter());
    try (JsonGenerator json = new JsonFactory().createGenerator(text)) {
      json.setPrettyPrinter(printer);
      write(file, findings, json);
    } catch (IOException e) {
      throw new java.io.UncheckedIOException(e);
    }
    return text.append('\n').toString();
  }

  /** Writes the same as one object. */
  public static void write(StripsFile file, List<Finding> findings, JsonGenerator json)
      throws IOException {
    json.writeStartObject();
    json.writeNumberField("selvage", VERSION);
    json.writeObjectFieldStart("job");
    json.writeStringField("file", file.job().file());
    json.writeStringField("sha256", file.job().sha256());
    json.writeNumberField("pages", file.job().pages());
    json.writeEndObject();
    json.writeStringField("proof", file.proof());
    json.writeObjectFieldStart("condition");
    json.writeStringField("name", file.conditionName());
    json.writeStringField("source", file.conditionSource());
    json.writeEndObject();
    json.writeArrayFieldStart("label");
    for (StripLabel.Item item : file.label()) {
      json.writeStartObject();
      json.writeStringField("name", item.name());
      json.writeStringField("value", item.value());
      json.writeEndObject();
    }
    json.writeEndArray();
    json.writeArrayFieldStart("strips");
    for (Strip strip : file.strips()) {
      writeStrip(json, strip);
    }
    json.writeEndArray();
    json.writeArrayFieldStart("findings");
    for (Finding finding : findings) {
      json.writeStartObject();
      json.writeStringField("code", finding.code());
      json.writeStringField("severity", finding.severity().word());
      json.writeStringField("text", finding.text());
      json.writeEndObject();
    }
    json.writeEndArray();
    json.writeEndObject();
  }

  private static void writeStrip(JsonGenerator json, Strip strip) throws IOException {
    json.writeStartObject();
    json.writeStringField("strip_id", strip.stripId());
    json.writeNumberField("page", strip.page());
    json.writeNumberField("seed", strip.seed());
    Strip.Place place = strip.place();
    json.writeObjectFieldStart("place");
    json.writeStringField("edge", place.edge());
    json.writeBooleanField("media_extended", place.mediaExtended());
    writeNumbers(json, "box_pt", 4, place.xPt(), place.yPt(), place.widthPt(), place.heightPt());
    json.writeNumberField("proof_page", place.proofPage());
    json.writeBooleanField("own_page", place.ownPage());
    json.writeEndObject();
    json.writeObjectFieldStart("reader");
    json.writeStringField("name", strip.reader().name());
    json.writeNumberField("aperture_mm", strip.reader().apertureMm());
    json.writeEndObject();
    json.writeArrayFieldStart("patches");
    for (Patch patch : strip.patches()) {
      writePatch(json, patch);
    }
    json.writeEndArray();
    Coverage coverage = strip.coverage();
    json.writeObjectFieldStart("coverage");
    json.writeNumberField("within_de00_2", rounded(coverage.within2Percent(), 3));
    json.writeNumberField("within_de00_3", rounded(coverage.within3Percent(), 3));
    json.writeNumberField("mean_de00", rounded(coverage.meanDe00(), 4));
    json.writeNumberField("standard_within_de00_3", rounded(coverage.standardWithin3Percent(), 3));
    json.writeEndObject();
    json.writeArrayFieldStart("pages");
    for (PageShare share : strip.pages()) {
      json.writeStartObject();
      json.writeNumberField("page", share.page());
      json.writeNumberField("inked_share_pct", rounded(share.inkedSharePercent(), 3));
      json.writeNumberField("within_de00_3", rounded(share.within3Percent(), 3));
      json.writeEndObject();
    }
    json.writeEndArray();
    json.writeEndObject();
  }

  private static void writePatch(JsonGenerator json, Patch patch) throws IOException {
    json.writeStartObject();
    json.writeStringField("id", patch.id());
    json.writeStringField("set", patch.set().word());
    json.writeStringField("role", patch.role());
    json.writeObjectFieldStart("inks");
    for (Map.Entry<Colorant, Integer> ink : patch.mixture().units().entrySet()) {
      json.writeNumberField(ink.getKey().name(), Tint.toPercent(ink.getValue()));
    }
    json.writeEndObject();
    Lab lab = patch.aim().lab();
    writeNumbers(json, "aim_lab", 4, lab.l(), lab.a(), lab.b());
    json.writeStringField("aim_source", patch.aim().source().word());
    json.writeNumberField("area_pct", rounded(patch.areaPercent(), 6));
    json.writeNumberField("represents_pct", rounded(patch.representsPercent(), 6));
    json.writeNumberField("row", patch.row());
    json.writeNumberField("column", patch.column());
    BoxMm box = patch.box();
    writeNumbers(json, "box_mm", 4, box.xMm(), box.yMm(), box.widthMm(), box.heightMm());
    if (patch.reason().isPresent()) {
      json.writeStringField("why", patch.reason().get().word());
    }
    if (patch.where().isPresent()) {
      PatchPlace where = patch.where().get();
      json.writeObjectFieldStart("where");
      json.writeNumberField("page", where.page());
      BoxMm area = where.box();
      writeNumbers(json, "box_mm", 3, area.xMm(), area.yMm(), area.widthMm(), area.heightMm());
      json.writeEndObject();
    }
    json.writeEndObject();
  }

  private static void writeNumbers(JsonGenerator json, String field, int digits, double... numbers)
      throws IOException {
    json.writeArrayFieldStart(field);
    for (double number : numbers) {
      json.writeNumber(rounded(number, digits));
    }
    json.writeEndArray();
  }

  private static double rounded(double value, int digits) {
    double scale = Math.pow(10, digits);
    return Math.rint(value * scale) / scale + 0.0; // no negative zero
  }

  /**
   * Reads a file.
   *
   * @throws InputException where it can't be read, is larger than {@link #MAX_BYTES}, or is no
   *     strips file
   */
  public static StripsFile read(Path file) throws InputException {
    String name = file.toString();
    try (InputStream in = Files.newInputStream(file)) {
      byte[] bytes = in.readNBytes(MAX_BYTES + 1);
      if (bytes.length > MAX_BYTES) {
        throw InputException.of(
            name, "expected a strips file of at most " + (MAX_BYTES >> 20) + " MiB, found more");
      }
      return read(name, bytes);
    } catch (NoSuchFileException e) {
      throw InputException.of(name, "no such file; check the name", e);
    } catch (IOException e) {
      throw InputException.of(name, "can't be read: " + e.getMessage(), e);
    }
  }

  /**
   * Reads.
   *
   * @param file the file's name, for messages
   * @throws InputException where the bytes are no strips file; the message names the place
   */
  public static StripsFile read(String file, byte[] bytes) throws InputException {
    JsonNode root;
    try {
      root = new ObjectMapper().readTree(new String(bytes, StandardCharsets.UTF_8));
    } catch (JsonProcessingException e) {
      throw InputException.of(
          file, "expected a strips file (JSON), found: " + e.getOriginalMessage(), e);
    }
    JsonFields fields = JsonFields.of(file, "strips file", root);
    if (fields.whole("selvage", 1) != VERSION) {
      throw fields.complaint("selvage", "version " + VERSION);
    }
    JsonFields job = fields.object("job");
    JsonFields condition = fields.object("condition");
    List<Strip> strips = new ArrayList<>();
    Set<String> ids = new HashSet<>();
    for (JsonFields strip : fields.objects("strips")) {
      strips.add(strip(strip));
      if (!ids.add(strips.get(strips.size() - 1).stripId())) {
        throw strip.complaint("strip_id", "a name that no other strip has");
      }
    }
    if (strips.isEmpty()) {
      throw fields.complaint("strips", "at least one strip");
    }
    return new StripsFile(
        new JobFile(job.text("file"), job.text("sha256"), job.whole("pages", 1)),
        fields.text("proof"),
        condition.text("name"),
        condition.text("source"),
        strips,
        label(fields));
  }

  private static List<StripLabel.Item> label(JsonFields fields) throws InputException {
    List<StripLabel.Item> items = new ArrayList<>();
    if (fields.node().has("label")) {
      for (JsonFields item : fields.objects("label")) {
        items.add(new StripLabel.Item(item.text("name"), item.text("value")));
      }
    }
    return items;
  }

  private static Strip strip(JsonFields fields) throws InputException {
    int page = fields.whole("page", 1);
    JsonFields reader = fields.object("reader");
    List<Patch> patches = new ArrayList<>();
    Set<String> ids = new HashSet<>();
    for (JsonFields patch : fields.objects("patches")) {
      patches.add(patch(patch));
      Patch last = patches.get(patches.size() - 1);
      if (!ids.add(last.set().word() + " " + last.id())) {
        throw patch.complaint("id", "an id that no other patch of the set has");
      }
    }
    if (patches.isEmpty()) {
      throw fields.complaint("patches", "at least one patch");
    }
    JsonFields coverage = fields.object("coverage");
    return new Strip(
        fields.text("strip_id"),
        page,
        fields.longNumber("seed"),
        place(fields.object("place"), page),
        new Strip.Reader(reader.text("name"), reader.number("aperture_mm", 0, 1000)),
        patches,
        new Coverage(
            coverage.number("within_de00_2", 0, 100.001),
            coverage.number("within_de00_3", 0, 100.001),
            coverage.number("mean_de00", 0, 1000),
            coverage.number("standard_within_de00_3", 0, 100.001)),
        pages(fields));
  }

  /** A place; without the fields for a page of its own, as files had none, it is on the job's. */
  private static Strip.Place place(JsonFields place, int page) throws InputException {
    boolean extended = place.flag("media_extended");
    boolean own = place.node().has("own_page") && place.flag("own_page");
    if (own && extended) {
      throw place.complaint("own_page", "false where the media was extended");
    }
    double[] box = place.numbers("box_pt", 4);
    return new Strip.Place(
        place.text("edge"),
        extended,
        box[0],
        box[1],
        box[2],
        box[3],
        place.node().has("proof_page") ? place.whole("proof_page", 1) : page,
        own);
  }

  private static List<PageShare> pages(JsonFields fields) throws InputException {
    List<PageShare> pages = new ArrayList<>();
    if (fields.node().has("pages")) {
      for (JsonFields page : fields.objects("pages")) {
        pages.add(
            new PageShare(
                page.whole("page", 1),
                page.number("inked_share_pct", 0, 100.001),
                page.number("within_de00_3", 0, 100.001)));
      }
    }
    return pages;
  }

  private static Optional<PatchPlace> where(JsonFields fields) throws InputException {
    if (!fields.node().has("where")) {
      return Optional.empty();
    }
    JsonFields where = fields.object("where");
    return Optional.of(new PatchPlace(where.whole("page", 1), box(where)));
  }

  private static BoxMm box(JsonFields fields) throws InputException {
    double[] box = fields.numbers("box_mm", 4);
    if (!(box[2] > 0 && box[3] > 0)) {
      throw fields.complaint("box_mm", "a width and a height above 0");
    }
    return new BoxMm(box[0], box[1], box[2], box[3]);
  }

  private static Patch patch(JsonFields fields) throws InputException {
    double[] lab = fields.numbers("aim_lab", 3);
    Optional<Reason> reason =
        fields.node().has("why")
            ? Optional.of(fields.word("why", Reason.values()))
            : Optional.empty();
    return new Patch(
        fields.text("id"),
        fields.word("set", PatchSet.values()),
        fields.text("role"),
        mixture(fields.object("inks")),
        new Aim(new Lab(lab[0], lab[1], lab[2]), fields.word("aim_source", AimSource.values())),
        fields.number("area_pct", 0, 100.001),
        fields.number("represents_pct", 0, 100.001),
        fields.whole("row", 1),
        fields.whole("column", 1),
        box(fields),
        reason,
        where(fields));
  }

  private static InkMixture mixture(JsonFields inks) throws InputException {
    Map<String, Double> percents = new TreeMap<>();
    for (Iterator<String> names = inks.node().fieldNames(); names.hasNext(); ) {
      String name = names.next();
      if (name.isEmpty()) {
        throw inks.complaint("an ink without a name");
      }
      percents.put(name, inks.number(name, 0, 100));
    }
    return InkMixture.ofPercents(percents);
  }
}
