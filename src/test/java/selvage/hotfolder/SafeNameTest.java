package selvage.hotfolder;

import static org.assertj.core.api.Assertions.assertThat;

import java.nio.charset.StandardCharsets;
import org.junit.jupiter.api.Test;
import org.junit.jupiter.params.ParameterizedTest;
import org.junit.jupiter.params.provider.CsvSource;

class SafeNameTest {
  @ParameterizedTest
  @CsvSource({
    "flyer.pdf, flyer.pdf",
    "Händler (2) + Plan.pdf, Händler (2) + Plan.pdf",
    "../../etc/passwd, passwd",
    "C:\\jobs\\flyer.pdf, flyer.pdf",
    ".hidden.pdf, hidden.pdf",
    "~draft.pdf, draft.pdf",
    "a<b>:c|d?.pdf, a_b__c_d_.pdf",
    "..., job.pdf",
    "name. , name",
  })
  void of_namesThatSendersGive_areNamesOfFiles(String given, String safe) {
    assertThat(SafeName.of(given, "job.pdf")).isEqualTo(safe);
  }

  @Test
  void of_nothing_isTheStandard() {
    assertThat(SafeName.of(null, "job.pdf")).isEqualTo("job.pdf");
    assertThat(SafeName.of("", "job.pdf")).isEqualTo("job.pdf");
    assertThat(SafeName.of("dir/", "job.pdf")).isEqualTo("job.pdf");
  }

  @Test
  void of_veryLongName_keepsItsEnding() {
    String safe = SafeName.of("ä".repeat(400) + ".pdf", "job.pdf");
    assertThat(safe).startsWith("ää").endsWith("ä.pdf");
    assertThat(safe.getBytes(StandardCharsets.UTF_8).length).isBetween(150, 160);
  }

  @Test
  void of_signsThatMoveACursor_areReplaced() {
    assertThat(SafeName.of("a\u0000b\u001b[2Jc\nd.pdf", "job.pdf")).isEqualTo("a_b__2Jc_d.pdf");
  }
}
