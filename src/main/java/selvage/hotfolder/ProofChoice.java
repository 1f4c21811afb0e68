package selvage.hotfolder;

import java.io.IOException;
import java.io.InputStream;
import java.nio.charset.StandardCharsets;
import java.nio.file.Files;
import java.nio.file.Path;
import java.util.ArrayList;
import java.util.HashSet;
import java.util.LinkedHashSet;
import java.util.List;
import java.util.Locale;
import java.util.Optional;
import java.util.Set;
import java.util.regex.Matcher;
import java.util.regex.Pattern;
import selvage.ledger.FiledStrip;

/**
 * Finds the proofs that a measurement may be of: the newest with a strip whose id stands in the
 * file's name or head (typed, or read from the Data Matrix by whatever scanned it), else those
 * stamped last, for their aims to be held against the readings.
 */
final class ProofChoice {
  /** Two groups of four letters and digits, as strips are named. */
  private static final Pattern ID =
      Pattern.compile("(?<![0-9A-Z])[0-9A-HJKMNP-TV-Z]{4}-[0-9A-HJKMNP-TV-Z]{4}(?![0-9A-Z])");

  private static final int HEAD_BYTES = 64 << 10;

  /** So many strips are held against readings that name none. */
  private static final int MOST_TRIED = 300;

  /**
   * A proof.
   *
   * @param jobId of the job
   * @param name its path below the outgoing folder
   * @param folder where it lies or lay
   * @param strips its strips file, or a copy
   */
  record Proof(String jobId, String name, Path folder, Path strips) {}

  private final Filing filing;

  ProofChoice(Filing filing) {
    this.filing = filing;
  }

  /**
   * The proofs to be tried.
   *
   * @param stage takes copies of strips files that are no longer where they were written
   * @throws IOException where the ledger can't be asked
   */
  List<Proof> of(Claim claim, Path stage) throws IOException {
    Set<String> ids = ids(claim);
    List<FiledStrip> found = new ArrayList<>();
    for (String id : ids) {
      found.addAll(filing.newestStrip(id));
    }
    if (found.isEmpty()) {
      found = filing.latestStrips(MOST_TRIED);
    }
    List<Proof> proofs = new ArrayList<>();
    Set<String> jobs = new HashSet<>();
    for (FiledStrip strip : found) {
      if (strip.job().proof().isPresent() && jobs.add(strip.job().jobId())) {
        proofs.add(proof(claim, strip, stage));
      }
    }
    return proofs;
  }

  /** The proof of one job; none where it was not stamped. */
  List<Proof> ofJob(Claim claim, String jobId, Path stage) throws IOException {
    Optional<FiledStrip> strip = filing.stripOfJob(jobId);
    return strip.isPresent() && strip.get().job().proof().isPresent()
        ? List.of(proof(claim, strip.get(), stage))
        : List.of();
  }

  private static Proof proof(Claim claim, FiledStrip strip, Path stage) throws IOException {
    Path outgoing = claim.folder().places().outgoing();
    String name = strip.job().proof().orElseThrow();
    Path proof = outgoing.resolve(name);
    Path strips = outgoing.resolve(strip.job().strips().orElseThrow());
    byte[] filed = strip.stripsJson().getBytes(StandardCharsets.UTF_8);
    if (!Files.isRegularFile(strips)
        || Files.size(strips) != filed.length
        || !java.util.Arrays.equals(Files.readAllBytes(strips), filed)) {
      strips = stage.resolve("strips-" + strip.job().jobId() + ".json");
      Files.write(strips, filed);
    }
    Path folder = proof.getParent();
    return new Proof(
        strip.job().jobId(),
        name,
        folder != null && Files.isDirectory(folder) ? folder : outgoing,
        strips);
  }

  private static Set<String> ids(Claim claim) throws IOException {
    Set<String> ids = new LinkedHashSet<>();
    add(claim.name(), ids);
    try (InputStream in = Files.newInputStream(claim.file())) {
      add(new String(in.readNBytes(HEAD_BYTES), StandardCharsets.ISO_8859_1), ids);
    }
    return ids;
  }

  private static void add(String text, Set<String> ids) {
    Matcher matcher = ID.matcher(text.toUpperCase(Locale.ROOT));
    while (matcher.find() && ids.size() < 64) {
      ids.add(matcher.group());
    }
  }
}
