package selvage.web;

import java.net.InetAddress;
import java.net.NetworkInterface;
import java.net.SocketException;
import java.net.UnknownHostException;
import java.util.Locale;
import java.util.Set;
import java.util.TreeSet;

/** The names and addresses by which browsers may address this server. */
final class HostNames {
  private HostNames() {}

  /**
   * All names of an address that is listened on.
   *
   * @param further names that the user gives
   */
  static Set<String> of(InetAddress bind, Set<String> further) {
    Set<String> hosts = new TreeSet<>(further);
    hosts.addAll(Set.of("localhost", "127.0.0.1", "[::1]"));
    if (bind.isAnyLocalAddress()) {
      try {
        NetworkInterface.networkInterfaces()
            .flatMap(NetworkInterface::inetAddresses)
            .forEach(address -> hosts.add(literal(address)));
      } catch (SocketException e) {
        // Then only what is given counts.
      }
    } else {
      hosts.add(literal(bind));
    }
    if (!bind.isLoopbackAddress()) {
      try {
        hosts.add(InetAddress.getLocalHost().getHostName().toLowerCase(Locale.ROOT));
      } catch (UnknownHostException e) {
        // A machine without a name is addressed by number.
      }
    }
    return Set.copyOf(hosts);
  }

  private static String literal(InetAddress address) {
    String text = address.getHostAddress().toLowerCase(Locale.ROOT);
    int zone = text.indexOf('%');
    text = zone < 0 ? text : text.substring(0, zone);
    return text.contains(":") ? "[" + shortened(text) + "]" : text;
  }

  private static String shortened(String ipv6) {
    return ipv6.equals("0:0:0:0:0:0:0:1") ? "::1" : ipv6;
  }

  /** A Host header without its port, in lower case; empty where there is none. */
  static String withoutPort(String header) {
    if (header == null) {
      return "";
    }
    String host = header.toLowerCase(Locale.ROOT);
    int end = host.startsWith("[") ? host.indexOf(']') + 1 : host.indexOf(':');
    return end <= 0 ? host : host.substring(0, end);
  }

  /** The host and port of an origin, as they would stand in a Host header. */
  static String ofOrigin(String origin) {
    int at = origin.indexOf("://");
    return at < 0 ? "" : origin.substring(at + 3).toLowerCase(Locale.ROOT);
  }
}
