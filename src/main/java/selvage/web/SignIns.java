package selvage.web;

import io.javalin.http.HttpResponseException;
import java.nio.charset.StandardCharsets;
import java.security.MessageDigest;
import java.security.NoSuchAlgorithmException;
import java.security.SecureRandom;
import java.util.LinkedHashMap;
import java.util.Map;
import java.util.concurrent.TimeUnit;
import selvage.finding.InputException;

/**
 * Checks passwords, and slows down whoever guesses: after {@value #FREE_FAILURES} failures from an
 * address each further one doubles the wait, up to a minute. What was right a moment ago need not
 * be hashed again: other systems send their password with every request.
 */
final class SignIns {
  private static final int FREE_FAILURES = 5;
  private static final long MOST_WAIT_NANOS = TimeUnit.MINUTES.toNanos(1);
  private static final long REMEMBERED_NANOS = TimeUnit.MINUTES.toNanos(5);
  private static final int MOST_ADDRESSES = 4096;
  private static final int MOST_REMEMBERED = 256;
  private static final int TOO_MANY_REQUESTS = 429;

  private record Failures(int count, long waitUntilNanos) {}

  private final Users users;
  private final byte[] salt = new byte[16];
  private final Map<String, Failures> failures = bounded(MOST_ADDRESSES);
  private final Map<String, Long> remembered = bounded(MOST_REMEMBERED);

  SignIns(Users users) {
    this.users = users;
    new SecureRandom().nextBytes(salt);
  }

  private static <V> Map<String, V> bounded(int most) {
    return new LinkedHashMap<>() {
      private static final long serialVersionUID = 1L;

      @Override
      protected boolean removeEldestEntry(Map.Entry<String, V> eldest) {
        return size() > most;
      }
    };
  }

  boolean admits(String address, String name, String password) throws InputException {
    String key = digest(name + '\n' + password);
    synchronized (this) {
      Long until = remembered.get(key);
      if (until != null && until - System.nanoTime() > 0) {
        return true;
      }
      Failures known = failures.get(address);
      if (known != null && known.waitUntilNanos - System.nanoTime() > 0) {
        throw new HttpResponseException(
            TOO_MANY_REQUESTS, "Too many wrong passwords. Wait a minute, then try again.");
      }
    }
    boolean isRight = users.admits(name, password);
    synchronized (this) {
      if (isRight) {
        failures.remove(address);
        remembered.put(key, System.nanoTime() + REMEMBERED_NANOS);
      } else {
        int count = failures.containsKey(address) ? failures.get(address).count + 1 : 1;
        int doubled = Math.max(0, Math.min(6, count - FREE_FAILURES));
        long wait = doubled == 0 ? 0 : TimeUnit.SECONDS.toNanos(1L << doubled);
        failures.put(
            address, new Failures(count, System.nanoTime() + Math.min(wait, MOST_WAIT_NANOS)));
      }
    }
    return isRight;
  }

  private String digest(String text) {
    try {
      MessageDigest digest = MessageDigest.getInstance("SHA-256");
      digest.update(salt);
      return new String(
          digest.digest(text.getBytes(StandardCharsets.UTF_8)), StandardCharsets.ISO_8859_1);
    } catch (NoSuchAlgorithmException e) {
      throw new IllegalStateException("every Java platform has SHA-256", e);
    }
  }
}
