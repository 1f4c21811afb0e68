package selvage.hotfolder;

import com.fasterxml.jackson.databind.ObjectMapper;
import com.fasterxml.jackson.databind.node.ObjectNode;
import com.sun.net.httpserver.HttpExchange;
import com.sun.net.httpserver.HttpServer;
import java.io.IOException;
import java.net.InetAddress;
import java.net.InetSocketAddress;
import java.nio.charset.StandardCharsets;
import java.util.function.Supplier;
import selvage.finding.InputException;

/**
 * Health and metrics over HTTP on the loopback address: {@code /health} (JSON; status 200, or 503
 * while something hinders work) and {@code /metrics}.
 */
final class StatusPage implements AutoCloseable {
  private final HttpServer server;

  private StatusPage(HttpServer server) {
    this.server = server;
  }

  /**
   * Opens the page.
   *
   * @throws InputException where the port is taken
   */
  static StatusPage open(int port, Shop shop, Metrics metrics) throws InputException {
    try {
      HttpServer server =
          HttpServer.create(new InetSocketAddress(InetAddress.getLoopbackAddress(), port), 16);
      server.createContext(
          "/metrics",
          exchange -> answer(exchange, 200, "text/plain; version=0.0.4", metrics::text));
      server.createContext(
          "/health",
          exchange ->
              answer(
                  exchange,
                  shop.log().troubles() == 0 ? 200 : 503,
                  "application/json",
                  () -> health(shop)));
      server.start();
      return new StatusPage(server);
    } catch (IOException e) {
      throw InputException.of(
          "port " + port, "can't be opened: " + e.getMessage() + "; choose another", e);
    }
  }

  private static String health(Shop shop) {
    ObjectNode health = new ObjectMapper().createObjectNode();
    health.put("status", shop.log().troubles() == 0 ? "well" : "hindered");
    health.put("files", shop.queue().size());
    health.put("waiting", shop.queue().waiting());
    health.put("troubles", shop.log().troubles());
    return health.toString();
  }

  private static void answer(HttpExchange exchange, int status, String type, Supplier<String> text)
      throws IOException {
    try (exchange) {
      boolean isRead = exchange.getRequestMethod().equals("GET");
      byte[] bytes = isRead ? text.get().getBytes(StandardCharsets.UTF_8) : new byte[0];
      exchange.getResponseHeaders().set("Content-Type", type + "; charset=utf-8");
      exchange.getResponseHeaders().set("Cache-Control", "no-store");
      exchange.sendResponseHeaders(isRead ? status : 405, isRead ? bytes.length : -1);
      if (isRead) {
        exchange.getResponseBody().write(bytes);
      }
    }
  }

  @Override
  public void close() {
    server.stop(0);
  }
}
