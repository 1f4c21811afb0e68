package selvage.cli;

import static org.assertj.core.api.Assertions.assertThat;

import java.io.IOException;
import java.io.InputStream;
import java.nio.charset.StandardCharsets;
import java.util.List;
import org.junit.jupiter.api.Test;
import org.junit.jupiter.api.Timeout;

class StartupTest {
  @Test
  void list_everyNameOfOursAndOfALibrary_isAClass() throws IOException {
    ClassLoader loader = Startup.class.getClassLoader();
    assertThat(names())
        .filteredOn(name -> !name.startsWith("java.") && !name.equals("--"))
        .hasSizeGreaterThan(300)
        .allSatisfy(name -> assertThat(Class.forName(name, false, loader)).isNotNull());
  }

  @Test
  void list_namesNothingTwice() throws IOException {
    assertThat(names()).doesNotHaveDuplicates().contains("--");
  }

  @Test
  @Timeout(60)
  void await_afterBegin_returns() {
    Startup.begin().await();
  }

  private static List<String> names() throws IOException {
    try (InputStream list = Startup.class.getResourceAsStream("startup-classes.txt")) {
      return new String(list.readAllBytes(), StandardCharsets.US_ASCII).lines().toList();
    }
  }
}
