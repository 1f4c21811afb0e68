package selvage.web;

import io.javalin.http.Context;
import io.javalin.http.NotFoundResponse;
import java.io.IOException;
import java.net.URLEncoder;
import java.nio.charset.StandardCharsets;
import java.nio.file.Files;
import java.nio.file.NoSuchFileException;
import java.nio.file.Path;
import java.util.Optional;
import selvage.hotfolder.SafeName;

/** Files that are given away for keeping: never shown in the page's own place. */
final class Downloads {
  private Downloads() {}

  /**
   * Sends a file.
   *
   * @param file where it is; empty where it is no longer there
   * @param name that the browser is to give it
   */
  static void file(Context context, Optional<Path> file, String name, String type)
      throws IOException {
    Path there = file.orElseThrow(() -> gone(name));
    try {
      context.header("Content-Length", Long.toString(Files.size(there)));
      prepare(context, name, type);
      context.result(Files.newInputStream(there));
    } catch (NoSuchFileException e) {
      throw gone(name);
    }
  }

  private static NotFoundResponse gone(String name) {
    return new NotFoundResponse(
        name
            + " is no longer where the ledger says it lay: it was moved or removed from the outgoing"
            + " folder. What the ledger itself keeps, strips and scores, is still there.");
  }

  static void text(Context context, String text, String name, String type) {
    bytes(context, text.getBytes(StandardCharsets.UTF_8), name, type + "; charset=utf-8");
  }

  static void bytes(Context context, byte[] bytes, String name, String type) {
    prepare(context, name, type);
    context.result(bytes);
  }

  private static void prepare(Context context, String name, String type) {
    context.contentType(type);
    context.header("Content-Disposition", disposition(SafeName.of(name, "file")));
    context.header("X-Content-Type-Options", "nosniff");
  }

  /** The name twice [RFC 6266]: for those who know ASCII alone, and as it is. */
  private static String disposition(String name) {
    String plain = name.replaceAll("[^ -~]", "_");
    String encoded = URLEncoder.encode(name, StandardCharsets.UTF_8).replace("+", "%20");
    return "attachment; filename=\"" + plain + "\"; filename*=UTF-8''" + encoded;
  }
}
