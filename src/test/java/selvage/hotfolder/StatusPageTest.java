package selvage.hotfolder;

import static org.assertj.core.api.Assertions.assertThat;
import static org.assertj.core.api.Assertions.assertThatThrownBy;

import java.io.IOException;
import java.io.PrintWriter;
import java.io.StringWriter;
import java.net.InetAddress;
import java.net.ServerSocket;
import java.net.URI;
import java.net.http.HttpClient;
import java.net.http.HttpRequest;
import java.net.http.HttpResponse;
import java.nio.file.Path;
import java.time.Clock;
import java.time.Duration;
import org.junit.jupiter.api.Test;
import org.junit.jupiter.api.io.TempDir;
import selvage.finding.InputException;

class StatusPageTest {
  @TempDir Path root;
  private final Metrics metrics = new Metrics();
  private final EventLog log =
      new EventLog(new PrintWriter(new StringWriter()), EventLog.Form.TEXT, Clock.systemUTC());

  @Test
  void health_whileSomethingHinders_saysSoByItsStatus() throws Exception {
    int port = freePort();
    try (StatusPage page = StatusPage.open(port, shop(), metrics)) {
      assertThat(page).isNotNull();
      assertThat(get(port, "/health").statusCode()).isEqualTo(200);
      log.trouble("disk", "house", "the disk is full");
      assertThat(get(port, "/health").statusCode()).isEqualTo(503);
      assertThat(get(port, "/health").body()).contains("\"hindered\"");
      log.over("disk", "house", "there is room");
      assertThat(get(port, "/health").body()).contains("\"well\"");
    }
  }

  @Test
  void metrics_afterAFile_countItByOutcome() throws Exception {
    int port = freePort();
    metrics.settled("stamped", Duration.ofMillis(300));
    metrics.watch(() -> 7, () -> 0);
    try (StatusPage page = StatusPage.open(port, shop(), metrics)) {
      assertThat(page).isNotNull();
      assertThat(get(port, "/metrics").body())
          .contains("selvage_files_settled_seconds_count{outcome=\"stamped\"} 1")
          .contains("selvage_files_waiting 7.0");
    }
  }

  @Test
  void open_portTaken_isRefused() throws Exception {
    try (ServerSocket taken = new ServerSocket(0, 1, InetAddress.getLoopbackAddress())) {
      assertThatThrownBy(() -> StatusPage.open(taken.getLocalPort(), shop(), metrics))
          .isInstanceOf(InputException.class)
          .hasMessageContaining("choose another");
    }
  }

  private Shop shop() {
    WatchSettings settings = HotFolderFixture.settings(root);
    return new Shop(settings, new Filing(settings.ledger()), log, metrics, Clock.systemUTC());
  }

  private static int freePort() throws IOException {
    try (ServerSocket socket = new ServerSocket(0, 1, InetAddress.getLoopbackAddress())) {
      return socket.getLocalPort();
    }
  }

  private static HttpResponse<String> get(int port, String path)
      throws IOException, InterruptedException {
    return HttpClient.newHttpClient()
        .send(
            HttpRequest.newBuilder(URI.create("http://127.0.0.1:" + port + path)).build(),
            HttpResponse.BodyHandlers.ofString());
  }
}
