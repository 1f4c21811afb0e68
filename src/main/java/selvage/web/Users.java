package selvage.web;

import java.io.IOException;
import java.nio.charset.StandardCharsets;
import java.nio.file.Files;
import java.nio.file.NoSuchFileException;
import java.nio.file.Path;
import java.nio.file.StandardCopyOption;
import java.nio.file.attribute.PosixFilePermissions;
import java.security.GeneralSecurityException;
import java.security.MessageDigest;
import java.security.SecureRandom;
import java.util.ArrayList;
import java.util.Base64;
import java.util.LinkedHashMap;
import java.util.List;
import java.util.Map;
import java.util.regex.Pattern;
import javax.crypto.SecretKeyFactory;
import javax.crypto.spec.PBEKeySpec;
import selvage.finding.InputException;

/**
 * Who may sign in: a text file, a line for each, {@code NAME TAB pbkdf2-sha256 TAB ROUNDS TAB SALT
 * TAB HASH}, salt and hash in base 64. Passwords are hashed with PBKDF2 and HMAC-SHA-256 [rfc8018]
 * in {@value #ROUNDS} rounds, as the OWASP password storage cheat sheet advised in 2023 (the number
 * from memory). Safe for use by many threads; a change of the file counts from the next sign-in on.
 */
public final class Users {
  private static final int ROUNDS = 600_000;
  private static final int SALT_BYTES = 16;
  private static final int HASH_BITS = 256;

  /** A shorter one is guessed too soon (common practice, no source). */
  public static final int LEAST_PASSWORD_LETTERS = 12;

  private static final int MOST_PASSWORD_LETTERS = 256;
  private static final String METHOD = "pbkdf2-sha256";
  private static final Pattern NAME = Pattern.compile("[\\p{L}\\p{N}][\\p{L}\\p{N} ._-]{0,62}");

  private static final class Entry {
    private final int rounds;
    private final byte[] salt;
    private final byte[] hash;

    private Entry(int rounds, byte[] salt, byte[] hash) {
      this.rounds = rounds;
      this.salt = salt;
      this.hash = hash;
    }
  }

  private final Path file;

  public Users(Path file) {
    this.file = file;
  }

  /**
   * Whether anybody may sign in; where nobody may, nobody has to.
   *
   * @throws InputException where the file can't be used
   */
  public boolean isEmpty() throws InputException {
    return read().isEmpty();
  }

  /** Whether a name and password belong together; it takes as long for a name that is unknown. */
  boolean admits(String name, String password) throws InputException {
    if (password.length() > MOST_PASSWORD_LETTERS) {
      return false;
    }
    Entry entry = read().get(name);
    Entry asked =
        entry == null ? new Entry(ROUNDS, new byte[SALT_BYTES], new byte[HASH_BITS / 8]) : entry;
    byte[] hash = hash(password, asked.salt, asked.rounds);
    return MessageDigest.isEqual(hash, asked.hash) && entry != null;
  }

  /**
   * Gives a user a password, new or another.
   *
   * @throws InputException where the name or the password won't do, or the file can't be used
   */
  public void set(String name, String password) throws InputException, IOException {
    if (!NAME.matcher(name).matches()) {
      throw InputException.of(
          name, "expected a name of letters, digits, spaces, dots and dashes, at most 63");
    }
    if (password.length() < LEAST_PASSWORD_LETTERS || password.length() > MOST_PASSWORD_LETTERS) {
      throw InputException.of(
          name,
          "expected a password of "
              + LEAST_PASSWORD_LETTERS
              + " to "
              + MOST_PASSWORD_LETTERS
              + " letters, found "
              + password.length());
    }
    Map<String, Entry> entries = new LinkedHashMap<>(read());
    byte[] salt = new byte[SALT_BYTES];
    new SecureRandom().nextBytes(salt);
    entries.put(name, new Entry(ROUNDS, salt, hash(password, salt, ROUNDS)));
    write(entries);
  }

  /**
   * Takes a user's right to sign in.
   *
   * @throws InputException where there is no such user
   */
  public void remove(String name) throws InputException, IOException {
    Map<String, Entry> entries = new LinkedHashMap<>(read());
    if (entries.remove(name) == null) {
      throw InputException.of(file.toString(), "expected a user " + name + ", found none");
    }
    write(entries);
  }

  private static byte[] hash(String password, byte[] salt, int rounds) {
    PBEKeySpec spec = new PBEKeySpec(password.toCharArray(), salt, rounds, HASH_BITS);
    try {
      return SecretKeyFactory.getInstance("PBKDF2WithHmacSHA256").generateSecret(spec).getEncoded();
    } catch (GeneralSecurityException e) {
      throw new IllegalStateException("this Java has no PBKDF2 with HMAC-SHA-256", e);
    } finally {
      spec.clearPassword();
    }
  }

  private Map<String, Entry> read() throws InputException {
    List<String> lines;
    try {
      lines = Files.readAllLines(file, StandardCharsets.UTF_8);
    } catch (NoSuchFileException e) {
      return Map.of();
    } catch (IOException e) {
      throw InputException.of(file.toString(), "can't be read: " + e.getMessage(), e);
    }
    Map<String, Entry> entries = new LinkedHashMap<>();
    for (int i = 0; i < lines.size(); i++) {
      if (!lines.get(i).isBlank()) {
        List<String> fields = List.of(lines.get(i).split("\t", -1));
        try {
          if (fields.size() != 5 || !fields.get(1).equals(METHOD)) {
            throw new IllegalArgumentException("fields");
          }
          entries.put(
              fields.get(0),
              new Entry(
                  Integer.parseInt(fields.get(2)),
                  Base64.getDecoder().decode(fields.get(3)),
                  Base64.getDecoder().decode(fields.get(4))));
        } catch (IllegalArgumentException e) {
          throw InputException.of(
              file + ":" + (i + 1),
              "expected a name, "
                  + METHOD
                  + ", rounds, salt and hash between tabs, found something else; remove the line and"
                  + " give the user a password again",
              e);
        }
      }
    }
    return entries;
  }

  private void write(Map<String, Entry> entries) throws IOException {
    List<String> lines = new ArrayList<>();
    entries.forEach(
        (name, entry) ->
            lines.add(
                String.join(
                    "\t",
                    name,
                    METHOD,
                    String.valueOf(entry.rounds),
                    Base64.getEncoder().encodeToString(entry.salt),
                    Base64.getEncoder().encodeToString(entry.hash))));
    Path folder = file.toAbsolutePath().getParent();
    Files.createDirectories(folder);
    Path part = Files.createTempFile(folder, ".users", ".part");
    if (Files.getFileStore(part).supportsFileAttributeView("posix")) {
      Files.setPosixFilePermissions(part, PosixFilePermissions.fromString("rw-------"));
    }
    Files.write(part, lines, StandardCharsets.UTF_8);
    Files.move(part, file, StandardCopyOption.REPLACE_EXISTING);
  }
}
