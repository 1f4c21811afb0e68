package selvage.web;

import java.net.InetAddress;
import java.nio.file.Path;
import java.util.List;
import java.util.Objects;
import java.util.Set;
import selvage.hotfolder.WatchSettings;

/**
 * How the pages are served.
 *
 * @param bind the address to listen on
 * @param port 0 to 65535; 0 for any that is free
 * @param hosts names by which browsers may address the server, besides its addresses; lower case
 * @param users the file of those who may sign in; it need not be there
 * @param desk a folder for jobs under review
 * @param mostUploadBytes of one file
 * @param shop the hot folders and the ledger
 */
public record WebSettings(
    InetAddress bind,
    int port,
    Set<String> hosts,
    Path users,
    Path desk,
    long mostUploadBytes,
    WatchSettings shop) {
  /** Where nothing is said: 512 MB. */
  public static final long USUAL_UPLOAD_BYTES = 512L << 20;

  public WebSettings {
    Objects.requireNonNull(bind, "bind");
    Objects.requireNonNull(users, "users");
    Objects.requireNonNull(desk, "desk");
    Objects.requireNonNull(shop, "shop");
    hosts = Set.copyOf(hosts);
    if (port < 0 || port > 65535 || mostUploadBytes < 1) {
      throw new IllegalArgumentException("port " + port + ", " + mostUploadBytes + " bytes");
    }
  }

  /** Where uploads lie while they are worked on. */
  Path uploads() {
    return desk.resolve("uploads");
  }

  /** The folders' names, in their order. */
  public List<String> folderNames() {
    return shop.folders().stream().map(folder -> folder.name()).toList();
  }
}
