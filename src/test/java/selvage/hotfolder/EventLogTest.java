package selvage.hotfolder;

import static org.assertj.core.api.Assertions.assertThat;

import com.fasterxml.jackson.databind.JsonNode;
import com.fasterxml.jackson.databind.ObjectMapper;
import java.io.IOException;
import java.io.PrintWriter;
import java.io.StringWriter;
import java.time.Clock;
import java.time.Instant;
import java.time.ZoneOffset;
import org.junit.jupiter.api.Test;

class EventLogTest {
  private final StringWriter out = new StringWriter();

  @Test
  void tell_hostileName_staysOnOneLineAndMovesNoCursor() {
    log(EventLog.Form.TEXT).tell("stamped", "house", "a\n\u001b[2Jb.pdf", "done");
    assertThat(out.toString().strip()).doesNotContain("\n", "\u001b").contains("a", "b.pdf");
  }

  @Test
  void tell_json_isOneObjectALine() throws IOException {
    log(EventLog.Form.JSON).tell("stamped", "house", "a\n\"b.pdf", "done");
    assertThat(out.toString().lines()).hasSize(1);
    JsonNode line = new ObjectMapper().readTree(out.toString());
    assertThat(line.path("time").asText()).isEqualTo("2026-11-25T10:00:00Z");
    assertThat(line.path("event").asText()).isEqualTo("stamped");
    assertThat(line.path("file").asText()).isEqualTo("a\n\"b.pdf");
  }

  @Test
  void trouble_toldTwice_isToldOnceUntilItIsOver() {
    EventLog log = log(EventLog.Form.TEXT);
    log.trouble("disk", "house", "the disk is full");
    log.trouble("disk", "house", "the disk is full");
    assertThat(log.troubles()).isEqualTo(1);
    log.over("disk", "house", "the disk has room");
    log.over("disk", "house", "the disk has room");
    assertThat(log.troubles()).isZero();
    log.trouble("disk", "house", "the disk is full");
    assertThat(out.toString().lines()).hasSize(3);
  }

  private EventLog log(EventLog.Form form) {
    Clock clock = Clock.fixed(Instant.parse("2026-11-25T10:00:00Z"), ZoneOffset.UTC);
    return new EventLog(new PrintWriter(out), form, clock);
  }
}
