package selvage.hotfolder;

import static org.assertj.core.api.Assertions.assertThat;

import java.io.IOException;
import java.nio.charset.StandardCharsets;
import java.nio.file.Files;
import java.nio.file.Path;
import java.util.List;
import org.junit.jupiter.api.Test;
import org.junit.jupiter.api.io.TempDir;

class NamesTest {
  private static final List<String> ENDINGS = List.of(".proof.pdf", ".job.json");

  @TempDir Path folder;
  private final Names names = new Names();

  @Test
  void keep_freeName_isTheWishedOne() {
    assertThat(names.keep(folder, "flyer", ENDINGS)).isEqualTo(folder.resolve("flyer"));
  }

  @Test
  void keep_oneOfTheFilesIsThere_givesTheNextNumber() throws IOException {
    Files.writeString(folder.resolve("flyer.job.json"), "{}");
    assertThat(names.keep(folder, "flyer", ENDINGS)).isEqualTo(folder.resolve("flyer-2"));
  }

  @Test
  void keep_nameKeptByAnother_givesTheNextUntilItIsLetGo() {
    Path first = names.keep(folder, "flyer", ENDINGS);
    assertThat(names.keep(folder, "flyer", ENDINGS)).isEqualTo(folder.resolve("flyer-2"));
    names.letGo(first);
    assertThat(names.keep(folder, "flyer", ENDINGS)).isEqualTo(first);
  }

  @Test
  void shortened_longNames_fitAndStayApart() {
    String one = "印".repeat(83) + "a";
    String other = "印".repeat(83) + "b";
    assertThat(Names.shortened(one).getBytes(StandardCharsets.UTF_8).length)
        .isLessThanOrEqualTo(180);
    assertThat(Names.shortened(one)).isNotEqualTo(Names.shortened(other));
    assertThat(Names.shortened("flyer")).isEqualTo("flyer");
  }

  @Test
  void stem_namesOfManyForms_loseTheirLastEnding() {
    assertThat(Names.stem("a.b.pdf")).isEqualTo("a.b");
    assertThat(Names.stem("noending")).isEqualTo("noending");
    assertThat(Names.ending("a.b.pdf")).isEqualTo(".pdf");
    assertThat(Names.ending("noending")).isEmpty();
  }
}
