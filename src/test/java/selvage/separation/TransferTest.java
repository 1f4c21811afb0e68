package selvage.separation;

import static org.assertj.core.api.Assertions.assertThat;

import org.apache.pdfbox.cos.COSArray;
import org.apache.pdfbox.cos.COSDictionary;
import org.apache.pdfbox.cos.COSInteger;
import org.apache.pdfbox.cos.COSName;
import org.junit.jupiter.api.Test;
import selvage.ink.Tint;

/** Expected tints by hand, from light = 1 - tint (ISO 32000-1, 10.5). */
class TransferTest {
  private static final COSName IDENTITY = COSName.IDENTITY;

  @Test
  void apply_squareOfLight_darkensEveryInk() throws Exception {
    char[] row = row(10, 60, 0, 100, 40);
    Transfer.of(square()).apply(row);
    assertThat(row).isEqualTo(row(19, 84, 0, 100, 64));
  }

  @Test
  void apply_fourFunctions_lastIsForBlackAndSpots() throws Exception {
    char[] row = row(10, 60, 30, 10, 40);
    COSArray four = new COSArray();
    four.add(square());
    four.add(IDENTITY);
    four.add(IDENTITY);
    four.add(square());
    Transfer.of(four).apply(row);
    assertThat(row).isEqualTo(row(19, 60, 30, 19, 64));
  }

  @Test
  void of_names_changeNothing() throws Exception {
    COSArray names = new COSArray();
    for (int i = 0; i < 4; i++) {
      names.add(IDENTITY);
    }
    assertThat(Transfer.of(null)).isNull();
    assertThat(Transfer.of(COSName.getPDFName("Default"))).isNull();
    assertThat(Transfer.of(names)).isNull();
  }

  private static COSDictionary square() {
    COSDictionary function = new COSDictionary();
    function.setInt(COSName.FUNCTION_TYPE, 2);
    COSArray domain = new COSArray();
    domain.add(COSInteger.ZERO);
    domain.add(COSInteger.ONE);
    function.setItem(COSName.DOMAIN, domain);
    function.setInt(COSName.N, 2);
    return function;
  }

  private static char[] row(int... percents) {
    char[] row = new char[StateTable.INKS + percents.length];
    row[StateTable.ALPHA] = Tint.FULL;
    for (int i = 0; i < percents.length; i++) {
      row[StateTable.INKS + i] = (char) Tint.ofPercent(percents[i]);
    }
    return row;
  }
}
