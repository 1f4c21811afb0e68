package selvage.hotfolder;

import com.fasterxml.jackson.databind.JsonNode;
import com.fasterxml.jackson.databind.ObjectMapper;
import com.fasterxml.jackson.databind.node.ArrayNode;
import com.fasterxml.jackson.databind.node.ObjectNode;
import java.io.IOException;
import java.nio.file.FileAlreadyExistsException;
import java.nio.file.Files;
import java.nio.file.NoSuchFileException;
import java.nio.file.Path;
import java.util.ArrayList;
import java.util.List;

/**
 * What becomes of a claim, written down before any of it is done: which finished files move where,
 * the dropped one last. It can be carried out again from any point and comes to the same; that is
 * why a stop at any moment neither loses a job nor settles it twice.
 */
final class Settlement {
  /** A file and the name that it is to have. */
  record Move(Path from, Path to) {}

  private final Claim claim;
  private final String outcome;
  private final String text;
  private final Path stage;
  private final List<Move> moves;

  private Settlement(Claim claim, String outcome, String text, Path stage, List<Move> moves) {
    this.claim = claim;
    this.outcome = outcome;
    this.text = text;
    this.stage = stage;
    this.moves = moves;
  }

  /**
   * Decides. Once this returns, the claim will be settled so.
   *
   * @param outcome a word for logs: stamped, scored or refused
   * @param text for logs
   * @param stage the folder of the finished files
   * @param moves in order; their files are on the disk for good before the plan is
   * @throws IOException where the plan can't be written; nothing is decided then
   */
  static Settlement decide(Claim claim, String outcome, String text, Path stage, List<Move> moves)
      throws IOException {
    ObjectNode plan = new ObjectMapper().createObjectNode();
    plan.put("outcome", outcome);
    plan.put("text", text);
    plan.put("stage", stage.toString());
    ArrayNode list = plan.putArray("moves");
    for (Move move : moves) {
      Durable.force(move.from());
      list.addObject().put("from", move.from().toString()).put("to", move.to().toString());
    }
    Durable.forceFolder(stage);
    Durable.write(claim.plan(), new ObjectMapper().writeValueAsBytes(plan));
    return new Settlement(claim, outcome, text, stage, moves);
  }

  /**
   * Reads what was decided in an earlier run.
   *
   * @throws IOException where the plan can't be read
   */
  static Settlement read(Claim claim) throws IOException {
    JsonNode plan = new ObjectMapper().readTree(claim.plan().toFile());
    List<Move> moves = new ArrayList<>();
    for (JsonNode move : plan.path("moves")) {
      moves.add(new Move(Path.of(move.path("from").asText()), Path.of(move.path("to").asText())));
    }
    return new Settlement(
        claim,
        plan.path("outcome").asText(),
        plan.path("text").asText(),
        Path.of(plan.path("stage").asText()),
        moves);
  }

  Claim claim() {
    return claim;
  }

  String outcome() {
    return outcome;
  }

  String text() {
    return text;
  }

  /**
   * Moves what is not moved yet.
   *
   * @throws IOException where a folder is away or can't be written; to be tried again
   */
  void moveAll() throws IOException {
    checkFolders();
    if (!Files.isDirectory(stage)) {
      return;
    }
    for (Move move : moves) {
      if (!Files.exists(move.from())) {
        continue;
      }
      Files.createDirectories(parent(move.to()));
      Path to = move.to();
      for (int n = 2; ; n++) {
        try {
          Durable.move(move.from(), to, aside(to));
          break;
        } catch (FileAlreadyExistsException e) {
          // Somebody else's file came in between; it stays.
          to = another(move.to(), n);
        }
      }
    }
  }

  /**
   * Where a file is no longer, it has been moved; unless the whole folder is away. The finished
   * files' own folder goes last of all, once everything is settled.
   */
  private void checkFolders() throws IOException {
    FolderSettings.Places places = claim.folder().places();
    for (Path folder : List.of(places.outgoing(), places.refused(), places.done(), parent(stage))) {
      if (!Files.isDirectory(folder)) {
        throw new NoSuchFileException(folder.toString(), null, "the folder is away");
      }
    }
  }

  /** A hidden name on the target's own file system. */
  private Path aside(Path to) {
    FolderSettings.Places places = claim.folder().places();
    Path root = places.outgoing();
    for (Path one : List.of(places.refused(), places.done())) {
      root = to.startsWith(one) ? one : root;
    }
    return root.resolve(ClaimArea.HIDDEN).resolve("copy-" + claim.id());
  }

  private static Path parent(Path file) throws IOException {
    Path parent = file.toAbsolutePath().getParent();
    if (parent == null) {
      throw new NoSuchFileException(file.toString());
    }
    return parent;
  }

  private static Path another(Path file, int n) {
    String name = String.valueOf(file.getFileName());
    return file.resolveSibling(Names.stem(name) + "~" + n + Names.ending(name));
  }

  /** Forgets the claim, once all is moved and filed. */
  void close() throws IOException {
    claim.deleteStages();
    Durable.deleteTree(claim.area());
  }
}
