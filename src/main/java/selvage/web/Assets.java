package selvage.web;

import io.javalin.http.Context;
import io.javalin.http.NotFoundResponse;
import java.io.IOException;
import java.io.InputStream;
import java.io.UncheckedIOException;
import java.security.MessageDigest;
import java.security.NoSuchAlgorithmException;
import java.util.HexFormat;
import java.util.LinkedHashMap;
import java.util.Map;

/**
 * The pages' scripts and styles, from the jar. A name in a request is looked up in a table of those
 * there are; it never becomes a path. Addresses carry a mark of the content, so that browsers keep
 * a file as long as it stays the same.
 */
final class Assets {
  private static final String OWN = "/web/";
  private static final String WEBJARS = "/META-INF/resources/webjars/";

  /** A file, its type, and a mark of its content. */
  private static final class Asset {
    private final String type;
    private final byte[] bytes;
    private final String mark;

    private Asset(String type, byte[] bytes, String mark) {
      this.type = type;
      this.bytes = bytes;
      this.mark = mark;
    }
  }

  private final Map<String, Asset> assets = new LinkedHashMap<>();

  Assets() {
    for (String script : new String[] {"app.js", "review.js", "charts.js", "score.js"}) {
      add(script, OWN + script);
    }
    add("style.css", OWN + "style.css");
    add("icon.svg", OWN + "icon.svg");
    add("htmx.js", WEBJARS + "htmx.org/2.0.8/dist/htmx.min.js");
    add("uplot.js", WEBJARS + "uplot/1.6.30/dist/uPlot.iife.min.js");
    add("uplot.css", WEBJARS + "uplot/1.6.30/dist/uPlot.min.css");
  }

  private void add(String name, String resource) {
    try (InputStream in = Assets.class.getResourceAsStream(resource)) {
      if (in == null) {
        throw new IllegalStateException("not in the jar: " + resource);
      }
      byte[] bytes = in.readAllBytes();
      assets.put(name, new Asset(type(name), bytes, mark(bytes)));
    } catch (IOException e) {
      throw new UncheckedIOException(e);
    }
  }

  private static String type(String name) {
    String ending = name.substring(name.lastIndexOf('.') + 1);
    return switch (ending) {
      case "js" -> "text/javascript; charset=utf-8";
      case "css" -> "text/css; charset=utf-8";
      case "svg" -> "image/svg+xml";
      default -> throw new IllegalArgumentException(name);
    };
  }

  private static String mark(byte[] bytes) {
    try {
      byte[] digest = MessageDigest.getInstance("SHA-256").digest(bytes);
      return HexFormat.of().formatHex(digest, 0, 8);
    } catch (NoSuchAlgorithmException e) {
      throw new IllegalStateException("every Java platform has SHA-256", e);
    }
  }

  /** The address of an asset. */
  String path(String name) {
    return "/assets/" + name + "?v=" + assets.get(name).mark;
  }

  /** Answers a request for one. */
  void serve(Context context) {
    Asset asset = assets.get(context.pathParam("name"));
    if (asset == null) {
      throw new NotFoundResponse();
    }
    boolean isMarked = asset.mark.equals(context.queryParam("v"));
    context.header("Cache-Control", isMarked ? "public, max-age=31536000, immutable" : "no-cache");
    context.contentType(asset.type).result(asset.bytes);
  }
}
