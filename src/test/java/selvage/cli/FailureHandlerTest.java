package selvage.cli;

import static org.assertj.core.api.Assertions.assertThat;

import java.io.PrintWriter;
import java.io.StringWriter;
import org.junit.jupiter.api.Test;

class FailureHandlerTest {
  @Test
  void exhausted_memoryOrStack_isBadInputInOneLine() {
    for (Error error : new Error[] {new OutOfMemoryError("heap"), new StackOverflowError()}) {
      StringWriter text = new StringWriter();
      int status = FailureHandler.exhausted(error, new PrintWriter(text, true));
      assertThat(status).isEqualTo(ExitStatus.INPUT);
      assertThat(text.toString().lines()).hasSize(1);
      assertThat(text.toString()).startsWith("The input can't be used").doesNotContain("heap");
    }
  }
}
