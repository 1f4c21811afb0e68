package selvage.measurement;

import static org.assertj.core.api.Assertions.assertThat;

import java.nio.charset.StandardCharsets;
import java.util.Arrays;
import java.util.List;
import net.jqwik.api.ForAll;
import net.jqwik.api.Property;
import net.jqwik.api.constraints.IntRange;
import net.jqwik.api.constraints.Size;
import selvage.cgats.CgatsReader;
import selvage.color.Lab;
import selvage.finding.InputException;
import selvage.strip.Strip;

class MeasurementReaderProperties {
  private static final Strip STRIP = StripFixture.strip("KM7T-90QA", 1);
  private static final byte[] WHOLE =
      new SimulatedText(StripFixture.file(STRIP), Drift.NONE)
          .add(STRIP, VirtualDevice.withoutDrift(0.5, 1).read(STRIP))
          .text()
          .getBytes(StandardCharsets.UTF_8);

  /** A file that was cut off anywhere is refused, unless all its rows are there. */
  @Property(tries = 500, seed = "20261125")
  void read_cutOffAnywhere_refusedOrComplete(@ForAll @IntRange(max = 5000) int place)
      throws InputException {
    byte[] cut = Arrays.copyOf(WHOLE, place % WHOLE.length);
    try {
      assertThat(labs(cut)).isEqualTo(labs(WHOLE));
    } catch (InputException e) {
      assertThat(e.getMessage()).startsWith("m.txt:");
    }
  }

  /** Whatever stands in a file, it is read or refused, and never a fault of the program. */
  @Property(tries = 1000, seed = "20261125")
  void read_bytesChangedAnywhere_readOrRefused(
      @ForAll @Size(min = 1, max = 6) List<@IntRange(max = 5000) Integer> places,
      @ForAll @Size(value = 6) List<@IntRange(max = 255) Integer> values) {
    byte[] changed = WHOLE.clone();
    for (int i = 0; i < places.size(); i++) {
      changed[places.get(i) % changed.length] = values.get(i).byteValue();
    }
    try {
      for (Measurement measurement : MeasurementReader.of(CgatsReader.parse("m.txt", changed))) {
        Matching.match(STRIP, measurement, false);
      }
    } catch (InputException e) {
      assertThat(e.getMessage()).isNotBlank();
    }
  }

  private static List<Lab> labs(byte[] bytes) throws InputException {
    return MeasurementReader.of(CgatsReader.parse("m.txt", bytes)).get(0).readings().stream()
        .map(Reading::lab)
        .toList();
  }
}
