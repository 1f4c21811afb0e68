package selvage.separation;

import static org.assertj.core.api.Assertions.assertThat;

import org.apache.pdfbox.cos.COSArray;
import org.apache.pdfbox.cos.COSBase;
import org.apache.pdfbox.cos.COSDictionary;
import org.apache.pdfbox.cos.COSName;
import org.junit.jupiter.api.Test;
import org.junit.jupiter.params.ParameterizedTest;
import org.junit.jupiter.params.provider.CsvSource;

/** Visibility as ISO 32000-2, 8.11.2.2 and 8.11.4, states it. */
class OptionalContentTest {
  private final COSDictionary on = group();
  private final COSDictionary off = group();

  private static COSDictionary group() {
    COSDictionary group = new COSDictionary();
    group.setName(COSName.TYPE, "OCG");
    return group;
  }

  private static COSArray array(COSBase... items) {
    COSArray array = new COSArray();
    for (COSBase item : items) {
      array.add(item);
    }
    return array;
  }

  private static COSName name(String name) {
    return COSName.getPDFName(name);
  }

  private static OptionalContent content(COSDictionary configuration, COSBase... groups) {
    COSDictionary properties = new COSDictionary();
    properties.setItem("OCGs", array(groups));
    properties.setItem("D", configuration);
    COSDictionary catalog = new COSDictionary();
    catalog.setItem("OCProperties", properties);
    return new OptionalContent(catalog);
  }

  private OptionalContent content() {
    COSDictionary configuration = new COSDictionary();
    configuration.setItem("OFF", array(off));
    return content(configuration, on, off);
  }

  private static COSDictionary membership(String policy, COSBase... groups) {
    COSDictionary membership = new COSDictionary();
    membership.setName(COSName.TYPE, "OCMD");
    membership.setItem("OCGs", array(groups));
    if (policy != null) {
      membership.setName("P", policy);
    }
    return membership;
  }

  private static COSDictionary expression(COSArray expression) {
    COSDictionary membership = membership("AllOff");
    membership.setItem("VE", expression);
    return membership;
  }

  @Test
  void isHidden_groups_areAsTheConfigurationSays() {
    assertThat(content().isHidden(on)).isFalse();
    assertThat(content().isHidden(off)).isTrue();
    assertThat(content().isHidden(group())).isFalse();
    assertThat(content().isHidden(null)).isFalse();
    assertThat(new OptionalContent(new COSDictionary()).isHidden(off)).isFalse();
  }

  @Test
  void isHidden_baseStateOff_hidesAllButThoseOn() {
    COSDictionary configuration = new COSDictionary();
    configuration.setName("BaseState", "OFF");
    configuration.setItem("ON", array(on));
    OptionalContent content = content(configuration, on, off);
    assertThat(content.isHidden(on)).isFalse();
    assertThat(content.isHidden(off)).isTrue();
  }

  @ParameterizedTest
  @CsvSource({
    "AllOn,  true,  false, true",
    "AnyOn,  false, false, true",
    "AnyOff, false, true,  false",
    "AllOff, true,  true,  false",
    "      , false, false, true"
  })
  void isHidden_policies_countTheGroups(
      String policy, boolean mixed, boolean allOn, boolean allOff) {
    assertThat(content().isHidden(membership(policy, on, off))).isEqualTo(mixed);
    assertThat(content().isHidden(membership(policy, on))).isEqualTo(allOn);
    assertThat(content().isHidden(membership(policy, off))).isEqualTo(allOff);
    assertThat(content().isHidden(membership(policy))).isFalse();
  }

  @Test
  void isHidden_expression_countsBeforeThePolicy() {
    COSName and = name("And");
    COSName or = name("Or");
    COSName not = name("Not");
    OptionalContent content = content();
    assertThat(content.isHidden(expression(array(and, on, off)))).isTrue();
    assertThat(content.isHidden(expression(array(or, on, off)))).isFalse();
    assertThat(content.isHidden(expression(array(not, off)))).isFalse();
    assertThat(content.isHidden(expression(array(not, on)))).isTrue();
    assertThat(content.isHidden(expression(array(and, on, array(not, off))))).isFalse();
    assertThat(content.isHidden(expression(array(or, array(and, on, off), array(not, on)))))
        .isTrue();
  }

  @Test
  void isHidden_printUsage_overridesTheState() {
    COSDictionary print = new COSDictionary();
    print.setName("PrintState", "OFF");
    COSDictionary usage = new COSDictionary();
    usage.setItem("Print", print);
    on.setItem("Usage", usage);
    COSDictionary application = new COSDictionary();
    application.setName("Event", "Print");
    application.setItem("OCGs", array(on));
    application.setItem("Category", array(name("Print")));
    COSDictionary configuration = new COSDictionary();
    configuration.setItem("AS", array(application));
    assertThat(content(configuration, on).isHidden(on)).isTrue();
    application.setName("Event", "View");
    assertThat(content(configuration, on).isHidden(on)).isFalse();
  }

  @Test
  void isHidden_expressionThatHoldsItself_ends() {
    COSArray ring = array(name("And"));
    for (int i = 0; i < 50; i++) {
      ring.add(array(name("Not"), array(name("Not"), ring)));
    }
    assertThat(content().isHidden(expression(ring))).isFalse();
  }
}
