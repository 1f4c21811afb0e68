package selvage.hotfolder;

import com.fasterxml.jackson.databind.JsonNode;
import com.fasterxml.jackson.databind.ObjectMapper;
import com.fasterxml.jackson.databind.node.ObjectNode;
import java.io.IOException;
import java.nio.file.Files;
import java.nio.file.Path;
import java.nio.file.attribute.FileTime;
import java.time.DateTimeException;
import java.time.Instant;

/**
 * A file that was taken, and nobody else's any more. It lies in a folder of its own, with what is
 * known of it; a claim outlives the program.
 *
 * @param folder where it was dropped
 * @param kind what for
 * @param id 32 hexadecimal digits; the job's or score's id in the ledger
 * @param area the claim's own folder
 * @param relative its path below the folder where it was dropped, with slashes
 * @param bytes its size
 * @param modified its time of change
 * @param received when it was taken
 */
record Claim(
    FolderSettings folder,
    Kind kind,
    String id,
    Path area,
    String relative,
    long bytes,
    FileTime modified,
    Instant received) {
  private static final String NOTE = "claim.json";
  private static final String FILE = "file";
  private static final String PLAN = "plan.json";

  /** The file itself. */
  Path file() {
    return area.resolve(FILE).resolve(name());
  }

  /** Its own name, without folders. */
  String name() {
    return relative.substring(relative.lastIndexOf('/') + 1);
  }

  /** The folder for finished files on the way to a place. */
  Path stage(Path place) {
    return place.resolve(ClaimArea.HIDDEN).resolve(id);
  }

  /** Removes finished files that are not needed, and files half finished. */
  void deleteStages() throws IOException {
    Durable.deleteTree(stage(folder.places().outgoing()));
    Durable.deleteTree(stage(folder.places().refused()));
  }

  /** Where a plan of moves is written once the file has been worked on. */
  Path plan() {
    return area.resolve(PLAN);
  }

  /** Whether the file is still what was taken: nobody went on writing into it. */
  boolean isUnchanged() throws IOException {
    return Files.size(file()) == bytes && Files.getLastModifiedTime(file()).equals(modified);
  }

  /** Writes what is known, before the file is taken. */
  void writeNote() throws IOException {
    Files.createDirectories(area.resolve(FILE));
    ObjectNode note = new ObjectMapper().createObjectNode();
    note.put("kind", kind.word());
    note.put("file", relative);
    note.put("bytes", bytes);
    note.put("modified", modified.toInstant().toString());
    note.put("received", received.toString());
    Durable.write(area.resolve(NOTE), new ObjectMapper().writeValueAsBytes(note));
  }

  /**
   * Reads what an earlier run left.
   *
   * @throws IOException where the note is not there or not whole
   */
  static Claim read(FolderSettings folder, Kind kind, Path area) throws IOException {
    JsonNode note = new ObjectMapper().readTree(area.resolve(NOTE).toFile());
    try {
      return new Claim(
          folder,
          kind,
          String.valueOf(area.getFileName()),
          area,
          note.required("file").asText(),
          note.required("bytes").asLong(),
          FileTime.from(Instant.parse(note.required("modified").asText())),
          Instant.parse(note.required("received").asText()));
    } catch (IllegalArgumentException | DateTimeException e) {
      throw new IOException("not a claim: " + area, e);
    }
  }
}
