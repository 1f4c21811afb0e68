package selvage.hotfolder;

import com.fasterxml.jackson.databind.JsonNode;
import com.fasterxml.jackson.databind.node.ObjectNode;
import java.io.IOException;
import java.io.OutputStream;
import java.nio.charset.StandardCharsets;
import java.nio.file.Files;
import java.nio.file.NoSuchFileException;
import java.nio.file.Path;
import java.time.Instant;
import java.time.temporal.ChronoUnit;
import java.util.ArrayList;
import java.util.List;
import java.util.Optional;
import selvage.finding.InputException;
import selvage.ledger.JobRecord;
import selvage.ledger.ScoreRecord;
import selvage.workflow.FileDigest;

/**
 * A claimed file while it is worked on: where its results lie until it is decided, the names that
 * they will have, and what is written about it.
 */
final class Job implements AutoCloseable {
  static final String PROOF = ".proof.pdf";
  static final String STRIPS = ".proof.strips.json";
  static final String RECORD = ".job.json";
  static final String WHY = ".why.txt";
  private static final int PROBE_BYTES = 8 << 20;
  private static final String CAUTION =
      "Results support, and do not replace, agreed standards, the instrument maker's instructions"
          + " and the judgement of those who sign the proof.";

  private final Shop shop;
  private final Claim claim;
  private final FolderSettings.Places places;
  private final List<Path> kept = new ArrayList<>();
  private final Instant time;
  private Path stem;
  private List<ProofChoice.Proof> proofs = List.of();

  private Job(Shop shop, Claim claim) {
    this.shop = shop;
    this.claim = claim;
    this.places = claim.folder().places();
    this.time = shop.now();
  }

  /**
   * Makes ready, and removes what an earlier try left.
   *
   * @throws IOException where a folder is away or can't be written
   */
  static Job begin(Shop shop, Claim claim) throws IOException {
    Job job = new Job(shop, claim);
    for (Path folder : List.of(job.places.outgoing(), job.places.refused(), job.places.done())) {
      if (!Files.isDirectory(folder)) {
        throw new NoSuchFileException(folder.toString(), null, "the folder is away");
      }
    }
    claim.deleteStages();
    Files.createDirectories(claim.stage(job.places.outgoing()));
    return job;
  }

  private Path below(Path folder) {
    int slash = claim.relative().lastIndexOf('/');
    return slash < 0 ? folder : folder.resolve(claim.relative().substring(0, slash));
  }

  private Path keep(Path folder, String wished, String... endings) {
    Path free = shop.names().keep(folder, wished, List.of(endings));
    kept.add(free);
    return free;
  }

  /** Why it need not be worked on, if so. */
  Optional<String> refusalAtSight() throws IOException {
    return refusalAtSight(Optional.empty());
  }

  /**
   * Why it need not be worked on, if so.
   *
   * @param jobId the job that a measurement is of, where that is known
   */
  Optional<String> refusalAtSight(Optional<String> jobId) throws IOException {
    if (claim.bytes() == 0) {
      return Optional.of("expected a file with something in it, found an empty one");
    }
    if (claim.kind() == Kind.MEASUREMENT) {
      Path stage = claim.stage(places.outgoing());
      proofs =
          jobId.isPresent()
              ? shop.proofChoice().ofJob(claim, jobId.get(), stage)
              : shop.proofChoice().of(claim, stage);
      return proofs.isEmpty()
          ? Optional.of(
              "no stamped proof is known that it could be a measurement of; stamp the job first")
          : Optional.empty();
    }
    return stampedBefore();
  }

  /** The same bytes under the same name, while their proof is still there. */
  private Optional<String> stampedBefore() throws IOException {
    Path folder = below(places.outgoing());
    Path before = folder.resolve(Names.shortened(Names.stem(claim.name())) + RECORD);
    if (!Files.isRegularFile(before)) {
      return Optional.empty();
    }
    JobRecord record;
    try {
      record = JobRecord.read(before);
    } catch (InputException e) {
      return Optional.empty();
    }
    boolean isSame =
        record.file().equals(claim.relative())
            && record.bytes() == claim.bytes()
            && record.proof().isPresent()
            && Files.exists(places.outgoing().resolve(record.proof().get()))
            && record.sha256().equals(FileDigest.sha256(claim.file()));
    return isSame
        ? Optional.of(
            "was stamped before, on "
                + record.finished()
                + ", as "
                + record.proof().get()
                + ", and has not changed; use that proof, or take it out of the outgoing folder to"
                + " have the job stamped again")
        : Optional.empty();
  }

  /** What the worker is asked. */
  ObjectNode request(double shortSeconds) {
    if (claim.kind() == Kind.JOB) {
      stem = keep(below(places.outgoing()), Names.stem(claim.name()), PROOF, STRIPS, RECORD);
      return StampTask.request(
          claim.folder().stamping(), claim.file(), staged(PROOF), time, shortSeconds);
    }
    // Named once the worker says whose measurement it is.
    stem = claim.stage(places.outgoing()).resolve("score");
    return ScoreTask.request(
        claim.folder(),
        claim.file(),
        proofs.stream().map(one -> new ScoreTask.Candidate(one.strips(), one.name())).toList(),
        staged(".json"),
        staged(".pdf"),
        time);
  }

  private Path staged(String ending) {
    return claim.stage(places.outgoing()).resolve(stem.getFileName() + ending);
  }

  /** Decides that the worker's results are the claim's. */
  Settlement accept(JsonNode reply) throws IOException {
    return claim.kind() == Kind.JOB ? stamped(reply) : scored(reply);
  }

  private Settlement stamped(JsonNode reply) throws IOException {
    List<Settlement.Move> moves = new ArrayList<>();
    for (JsonNode written : reply.path("written")) {
      Path from = Path.of(written.asText());
      if (!from.equals(staged(PROOF))) {
        moves.add(new Settlement.Move(from, stem.resolveSibling(from.getFileName())));
      }
    }
    JobRecord record =
        record(
            reply.path("sha256").asText(),
            JobRecord.State.STAMPED,
            Optional.of(Names.with(stem, PROOF)),
            Optional.of(Names.with(stem, STRIPS)),
            Optional.empty());
    Files.writeString(staged(RECORD), record.toJson());
    moves.add(new Settlement.Move(staged(RECORD), Names.with(stem, RECORD)));
    // Whatever waits for proofs finds the rest beside them.
    moves.add(new Settlement.Move(staged(PROOF), Names.with(stem, PROOF)));
    moves.add(new Settlement.Move(claim.file(), doneName()));
    Files.copy(staged(STRIPS), shop.keptStrips(claim));
    Files.writeString(shop.keptRecord(claim), record.toJson());
    return Settlement.decide(
        claim,
        "stamped",
        "as " + relative(places.outgoing(), Names.with(stem, PROOF)),
        claim.stage(places.outgoing()),
        moves);
  }

  private Settlement scored(JsonNode reply) throws IOException {
    ProofChoice.Proof proof = proofs.get(reply.path("candidate").asInt());
    ScoreRecord record =
        new ScoreRecord(
            claim.id(),
            claim.folder().name(),
            claim.relative(),
            FileDigest.sha256(claim.file()),
            claim.received(),
            time,
            Optional.of(proof.jobId()),
            Optional.of(proof.name()));
    String json = record.appendedTo(Files.readString(staged(".json")));
    Files.writeString(staged(".json"), json);
    Files.writeString(shop.keptRecord(claim), json);
    String name = Names.stem(proof.name().substring(proof.name().lastIndexOf('/') + 1));
    Path to =
        keep(
            proof.folder(),
            Names.shortened(name) + ".score-" + claim.id().substring(0, 8),
            ".json",
            ".pdf");
    List<Settlement.Move> moves =
        List.of(
            new Settlement.Move(staged(".json"), Names.with(to, ".json")),
            new Settlement.Move(staged(".pdf"), Names.with(to, ".pdf")),
            new Settlement.Move(claim.file(), doneName()));
    return Settlement.decide(
        claim,
        "scored",
        reply.path("verdict").asText() + ", a measurement of " + proof.name(),
        claim.stage(places.outgoing()),
        moves);
  }

  private Path doneName() {
    String ending = Names.ending(claim.name());
    Path free = keep(below(places.done()), Names.stem(claim.name()), ending);
    return Names.with(free, ending);
  }

  /**
   * Decides that it is refused.
   *
   * @param why for the person who dropped it: what was expected, what was found, what to do
   */
  Settlement refuse(String why) throws IOException {
    Path stage = claim.stage(places.refused());
    Files.createDirectories(stage);
    String ending = Names.ending(claim.name());
    Path to = keep(below(places.refused()), Names.stem(claim.name()), ending, WHY, RECORD);
    String plain = plain(why);
    JobRecord record =
        record(
            FileDigest.sha256(claim.file()),
            claim.kind() == Kind.JOB
                ? JobRecord.State.REFUSED
                : JobRecord.State.MEASUREMENT_REFUSED,
            Optional.empty(),
            Optional.empty(),
            Optional.of(plain));
    Path whyFile = stage.resolve(to.getFileName() + WHY);
    Path recordFile = stage.resolve(to.getFileName() + RECORD);
    Files.writeString(
        whyFile,
        claim.relative()
            + " was refused on "
            + time
            + ".\n\n"
            + plain
            + "\n\nMend it and drop it into "
            + claim.folder().drop(claim.kind())
            + " again. It lies beside this note as it came.\n\n"
            + CAUTION
            + "\n",
        StandardCharsets.UTF_8);
    Files.writeString(recordFile, record.toJson());
    Files.writeString(shop.keptRecord(claim), record.toJson());
    return Settlement.decide(
        claim,
        "refused",
        plain,
        stage,
        List.of(
            new Settlement.Move(whyFile, Names.with(to, WHY)),
            new Settlement.Move(recordFile, Names.with(to, RECORD)),
            new Settlement.Move(claim.file(), Names.with(to, ending))));
  }

  /** Without the name of the file, which stands beside it anyway. */
  private String plain(String why) {
    String text = why.replace(claim.file().toString(), claim.name());
    String prefix = claim.name() + ": ";
    return text.startsWith(prefix) ? text.substring(prefix.length()) : text;
  }

  private JobRecord record(
      String sha256,
      JobRecord.State state,
      Optional<Path> proof,
      Optional<Path> strips,
      Optional<String> why) {
    return new JobRecord(
        claim.id(),
        claim.folder().name(),
        claim.relative(),
        sha256,
        claim.bytes(),
        claim.received(),
        time.truncatedTo(ChronoUnit.MILLIS),
        state,
        proof.map(path -> relative(places.outgoing(), path)),
        strips.map(path -> relative(places.outgoing(), path)),
        why);
  }

  private static String relative(Path folder, Path file) {
    StringBuilder text = new StringBuilder();
    for (Path part : folder.relativize(file)) {
      text.append(text.length() == 0 ? "" : "/").append(part);
    }
    return text.toString();
  }

  /**
   * Makes sure that the folders can take files as large as a proof.
   *
   * @throws IOException where they can't: then the job is not at fault
   */
  void checkFolders() throws IOException {
    for (Path folder : List.of(places.outgoing(), places.refused())) {
      try {
        probe(claim.stage(folder));
      } catch (IOException e) {
        throw new IOException(folder + " can't take a proof: " + e.getMessage(), e);
      }
    }
  }

  private void probe(Path stage) throws IOException {
    Files.createDirectories(stage);
    Path probe = stage.resolve("probe");
    byte[] block = new byte[1 << 16];
    try (OutputStream out = Files.newOutputStream(probe)) {
      long bytes = Math.max(PROBE_BYTES, 2 * claim.bytes());
      for (long written = 0; written < bytes; written += block.length) {
        out.write(block);
      }
    } finally {
      Files.deleteIfExists(probe);
    }
  }

  @Override
  public void close() {
    kept.forEach(shop.names()::letGo);
  }
}
