package selvage.color;

import static org.assertj.core.api.Assertions.assertThat;
import static org.assertj.core.api.Assertions.assertThatThrownBy;

import java.io.IOException;
import java.nio.file.Files;
import java.nio.file.Path;
import org.assertj.core.data.Offset;
import org.junit.jupiter.api.Test;
import org.junit.jupiter.api.io.TempDir;
import selvage.finding.Finding;
import selvage.finding.InputException;

class CxfSpotsTest {
  private static final String HEAD = "<?xml version=\"1.0\" encoding=\"UTF-8\"?>\n";
  private static final String CORE = "http://colorexchangeformat.com/CxF3-core";

  @TempDir Path folder;

  private SpotLibrary read(String text) throws IOException, InputException {
    return SpotLibrary.read(Files.writeString(folder.resolve("spots.cxf"), text));
  }

  private static String lab(double l, double a, double b) {
    return "<cc:ColorValues><cc:ColorCIELab ColorSpecification=\"CS1\"><cc:L>"
        + l
        + "</cc:L><cc:A>"
        + a
        + "</cc:A><cc:B>"
        + b
        + "</cc:B></cc:ColorCIELab></cc:ColorValues>";
  }

  private static String document(String... objects) {
    return HEAD
        + "<cc:CxF xmlns:cc=\""
        + CORE
        + "\"><cc:Resources><cc:ObjectCollection>"
        + String.join("\n", objects)
        + "</cc:ObjectCollection></cc:Resources></cc:CxF>";
  }

  private static String object(String name, String inner) {
    return "<cc:Object ObjectType=\"Standard\" Name=\""
        + name
        + "\" Id=\"1\">"
        + inner
        + "</cc:Object>";
  }

  private static String tint(String ink, double percent, String process) {
    return "<cc:DeviceColorValues><cc:ColorCMYKPlusN>"
        + process
        + "<cc:SpotColor><cc:Name>"
        + ink
        + "</cc:Name><cc:Percentage>"
        + percent
        + "</cc:Percentage></cc:SpotColor></cc:ColorCMYKPlusN></cc:DeviceColorValues>";
  }

  @Test
  void read_objectsWithLab_areSolids() throws Exception {
    SpotLibrary library =
        read(document(object("Dune Red", lab(46.1, 55.2, 30)), object("Fern", lab(50, -40, 20))));
    assertThat(library.inks()).containsOnlyKeys("Dune Red", "Fern");
    assertThat(library.inks().get("Fern").solid()).isEqualTo(new Lab(50, -40, 20));
    assertThat(library.inks().get("Fern").source()).isEqualTo(AimSource.LIBRARY);
  }

  @Test
  void read_noNamespaceAndAttributes_areRead() throws Exception {
    SpotLibrary library =
        read(
            "<CxF><Resources><ObjectCollection><Object Name=\"Fern\"><ColorValues><ColorCIELab"
                + " L=\"50\" A=\"-40\" B=\"20\"/></ColorValues></Object></ObjectCollection>"
                + "</Resources></CxF>");
    assertThat(library.inks().get("Fern").solid()).isEqualTo(new Lab(50, -40, 20));
  }

  @Test
  void read_spotAtPercentages_makesARampAndLeavesOverprintsOut() throws Exception {
    SpotLibrary library =
        read(
            document(
                object("a", lab(50, -40, 20) + tint("Fern", 100, "")),
                object("b", lab(70, -20, 10) + tint("Fern", 50, "<cc:Black>0</cc:Black>")),
                object("c", lab(20, -5, 2) + tint("Fern", 100, "<cc:Black>100</cc:Black>"))));
    assertThat(library.inks().get("Fern").ramp()).containsOnlyKeys(50.0, 100.0);
    assertThat(library.inks().get("Fern").solid()).isEqualTo(new Lab(50, -40, 20));
  }

  @Test
  void read_spectraAlone_areLeftOutWithAWarning() throws Exception {
    String spectrum =
        "<cc:ColorValues><cc:ReflectanceSpectrum StartWL=\"400\">0.1 0.2</cc:ReflectanceSpectrum>"
            + "</cc:ColorValues>";
    SpotLibrary library =
        read(document(object("Fern", lab(50, -40, 20)), object("Teal", spectrum)));
    assertThat(library.inks()).containsOnlyKeys("Fern");
    assertThat(library.findings())
        .extracting(Finding::code)
        .containsExactly("spot-spectrum-not-read");
  }

  private static String spectrum(String id, String name, double reflectance) {
    return "<cc:Object Id=\""
        + id
        + "\" Name=\""
        + name
        + "\"><cc:ColorValues><cc:ReflectanceSpectrum ColorSpecification=\"CS1\">"
        + (reflectance + " ").repeat(31)
        + "</cc:ReflectanceSpectrum></cc:ColorValues></cc:Object>";
  }

  private static String specified(String objects, String custom) {
    return HEAD
        + "<cc:CxF xmlns:cc=\""
        + CORE
        + "\"><cc:Resources><cc:ObjectCollection>"
        + objects
        + "</cc:ObjectCollection><cc:ColorSpecificationCollection><cc:ColorSpecification"
        + " Id=\"CS1\"><cc:MeasurementSpec><cc:WavelengthRange StartWL=\"400\""
        + " Increment=\"10\"/></cc:MeasurementSpec></cc:ColorSpecification>"
        + "<cc:ColorSpecification Id=\"CS2\"><cc:TristimulusSpec><cc:Illuminant>D65"
        + "</cc:Illuminant><cc:Observer>10_Degree</cc:Observer></cc:TristimulusSpec>"
        + "</cc:ColorSpecification></cc:ColorSpecificationCollection></cc:Resources>"
        + custom
        + "</cc:CxF>";
  }

  /** A flat spectrum of 18.42 % is L* 50 (CIE 15), whatever the wavelengths. */
  private static void assertGray(SpotInk ink, double tint, double lightness) {
    Lab lab = ink.ramp().get(tint);
    assertThat(new double[] {lab.l(), lab.a(), lab.b()})
        .containsExactly(new double[] {lightness, 0, 0}, Offset.offset(0.001));
  }

  @Test
  void read_spectraWithWavelengths_becomeColors() throws Exception {
    SpotLibrary library =
        read(specified(spectrum("1", "Fern", 0.184187) + spectrum("2", "Paper", 1), ""));
    assertGray(library.inks().get("Fern"), 100, 50);
    assertGray(library.inks().get("Paper"), 100, 100);
    assertThat(library.findings())
        .extracting(Finding::code)
        .containsExactly("spot-color-from-spectrum");
  }

  @Test
  void read_spectraInPercent_becomeTheSameColors() throws Exception {
    SpotLibrary library =
        read(specified(spectrum("1", "Fern", 18.4187) + spectrum("2", "Paper", 100), ""));
    assertGray(library.inks().get("Fern"), 100, 50);
  }

  @Test
  void read_labForD65BesideASpectrum_spectrumCounts() throws Exception {
    String both =
        spectrum("1", "Fern", 0.184187)
            .replace(
                "<cc:ColorValues>",
                "<cc:ColorValues><cc:ColorCIELab ColorSpecification=\"CS2\"><cc:L>70</cc:L>"
                    + "<cc:A>1</cc:A><cc:B>2</cc:B></cc:ColorCIELab>");
    assertGray(read(specified(both, "")).inks().get("Fern"), 100, 50);
  }

  @Test
  void read_labForD65Alone_isLeftOutWithAWarning() throws Exception {
    String other = object("Fern", lab(50, -40, 20).replace("CS1", "CS2"));
    SpotLibrary library = read(specified(other + object("Teal", lab(60, -20, -5)), ""));
    assertThat(library.inks()).containsOnlyKeys("Teal");
    assertThat(library.findings()).extracting(Finding::code).containsExactly("spot-color-not-d50");
  }

  @Test
  void read_characterisation_takesTintsOnSubstrateOnly() throws Exception {
    String custom =
        "<cc:CustomResources><s:SpotInkCharacterisation xmlns:s=\"urn:x\" SpotInkName=\"Fern\">"
            + "<s:MeasurementSet Background=\"Substrate\">"
            + "<s:Measurement Tint=\"0\" ObjectRef=\"p\"/>"
            + "<s:Measurement Tint=\"50\" ObjectRef=\"h\"/>"
            + "<s:Measurement><s:TintPercentage>100</s:TintPercentage><s:ObjectRef>f</s:ObjectRef>"
            + "</s:Measurement></s:MeasurementSet><s:MeasurementSet Background=\"Black\">"
            + "<s:Measurement Tint=\"100\" ObjectRef=\"k\"/></s:MeasurementSet>"
            + "</s:SpotInkCharacterisation></cc:CustomResources>";
    SpotLibrary library =
        read(
            specified(
                spectrum("p", "a", 1)
                    + spectrum("h", "b", 0.5)
                    + spectrum("f", "c", 0.184187)
                    + spectrum("k", "d", 0.01),
                custom));
    assertThat(library.inks()).containsOnlyKeys("Fern");
    assertThat(library.inks().get("Fern").ramp()).containsOnlyKeys(50.0, 100.0);
    assertGray(library.inks().get("Fern"), 100, 50);
  }

  /** Neither a document type nor what it points to is taken. */
  @Test
  void read_documentType_isRefused() throws Exception {
    Path secret = Files.writeString(folder.resolve("secret.txt"), "50");
    String text =
        HEAD
            + "<!DOCTYPE CxF [<!ENTITY x SYSTEM \""
            + secret.toUri()
            + "\">]>\n<CxF><Object Name=\"Fern\"><ColorCIELab><L>&x;</L><A>0</A><B>0</B>"
            + "</ColorCIELab></Object></CxF>";
    assertThatThrownBy(() -> read(text))
        .isInstanceOf(InputException.class)
        .hasMessageContaining("spots.cxf:");
  }

  @Test
  void read_entitiesThatGrow_areRefused() {
    StringBuilder text = new StringBuilder(HEAD + "<!DOCTYPE CxF [<!ENTITY a0 \"lol\">");
    for (int i = 1; i < 12; i++) {
      text.append("<!ENTITY a").append(i).append(" \"");
      text.append(("&a" + (i - 1) + ";").repeat(10)).append("\">");
    }
    text.append("]><CxF><Object Name=\"&a11;\"/></CxF>");
    assertThatThrownBy(() -> read(text.toString())).isInstanceOf(InputException.class);
  }

  @Test
  void read_valueThatIsNoNumber_namesTheLine() {
    String text =
        document("\n", object("Fern", lab(50, -40, 20).replace("<cc:A>-40.0", "<cc:A>n/a")));
    assertThatThrownBy(() -> read(text))
        .isInstanceOf(InputException.class)
        .hasMessageContaining("spots.cxf:4: A: expected a number, found \"n/a\"");
  }

  @Test
  void read_otherXml_isRefused() {
    assertThatThrownBy(() -> read("<html><body/></html>"))
        .isInstanceOf(InputException.class)
        .hasMessageContaining("expected the element CxF");
    assertThatThrownBy(() -> read("<CxF><Object"))
        .isInstanceOf(InputException.class)
        .hasMessageContaining("can't be read");
  }

  @Test
  void read_sameInkTwiceInTwoColors_isRefused() {
    String text = document(object("Fern", lab(50, -40, 20)), object("Fern", lab(51, -40, 20)));
    assertThatThrownBy(() -> read(text))
        .isInstanceOf(InputException.class)
        .hasMessageContaining("second time");
  }
}
