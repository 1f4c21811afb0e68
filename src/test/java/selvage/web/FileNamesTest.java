package selvage.web;

import static org.assertj.core.api.Assertions.assertThat;

import org.junit.jupiter.api.Test;
import org.junit.jupiter.params.ParameterizedTest;
import org.junit.jupiter.params.provider.CsvSource;

class FileNamesTest {
  @ParameterizedTest
  @CsvSource({
    "flyer.pdf, flyer.pdf",
    "../../etc/passwd, passwd",
    "C:\\jobs\\flyer.pdf, flyer.pdf",
    ".hidden, hidden",
    "a<b>:c.pdf, a_b__c.pdf",
    "Größe 1_2-3.pdf, Größe 1_2-3.pdf",
    "..., file",
    "'', file"
  })
  void safe_names_areNoPathsAndShow(String given, String expected) {
    assertThat(FileNames.safe(given)).isEqualTo(expected);
  }

  @Test
  void safe_nothing_isAFile() {
    assertThat(FileNames.safe(null)).isEqualTo("file");
  }

  @Test
  void safe_long_keepsTheEndWithItsEnding() {
    assertThat(FileNames.safe("x".repeat(500) + ".pdf")).hasSize(120).endsWith("x.pdf");
  }

  @Test
  void safe_controlAndLineEnds_becomeUnderscores() {
    assertThat(FileNames.safe("a\r\nb\u0000\"c.txt")).isEqualTo("a__b__c.txt");
  }
}
