package selvage.cxf;

import static org.assertj.core.api.Assertions.assertThat;

import java.nio.charset.StandardCharsets;
import java.util.Arrays;
import net.jqwik.api.ForAll;
import net.jqwik.api.Property;
import net.jqwik.api.constraints.IntRange;
import net.jqwik.api.constraints.Size;
import selvage.finding.InputException;

class CxfReaderProperties {
  private static final byte[] GOOD =
      ("<?xml version=\"1.0\"?><c:CxF xmlns:c=\"u\"><c:Resources><c:ObjectCollection>"
              + "<c:Object ObjectType=\"T\" Name=\"J01\" Id=\"a\"><c:ColorValues>"
              + "<c:ReflectanceSpectrum StartWL=\"400\">0.1 0.2</c:ReflectanceSpectrum>"
              + "<c:ColorCIELab><c:L>50</c:L><c:A>1</c:A><c:B>2</c:B></c:ColorCIELab>"
              + "</c:ColorValues></c:Object></c:ObjectCollection></c:Resources></c:CxF>")
          .getBytes(StandardCharsets.UTF_8);

  @Property(tries = 400, seed = "20261125")
  void parse_bytesChanged_readOrRefused(
      @ForAll @Size(min = 1, max = 6) int[] places, @ForAll @Size(6) byte[] values) {
    byte[] bytes = GOOD.clone();
    for (int i = 0; i < places.length; i++) {
      bytes[Math.floorMod(places[i], bytes.length)] = values[i];
    }
    assertReadOrRefused(bytes);
  }

  @Property(tries = 200, seed = "20261125")
  void parse_cutOff_refused(@ForAll @IntRange(min = 0, max = 300) int length) {
    byte[] bytes = Arrays.copyOf(GOOD, Math.min(length, GOOD.length - 1));
    assertThat(assertReadOrRefused(bytes)).isFalse();
  }

  private static boolean assertReadOrRefused(byte[] bytes) {
    try {
      assertThat(CxfReader.parse("m.cxf", bytes).objects()).isNotNull();
      return true;
    } catch (InputException e) {
      assertThat(e.getMessage()).startsWith("m.cxf");
      assertThat(e.getMessage().lines()).hasSize(1);
      return false;
    }
  }
}
