package selvage.web;

import java.nio.charset.StandardCharsets;
import java.util.List;
import java.util.Optional;
import selvage.finding.InputException;
import selvage.hotfolder.FolderSettings;
import selvage.hotfolder.ProofFiles;
import selvage.hotfolder.WatchSettings;
import selvage.ledger.JobRecord;
import selvage.ledger.Ledger;
import selvage.strip.StripsFile;
import selvage.strip.StripsJson;

/**
 * Proofs as pages ask for them: what the ledger says, and the files where the hot folders keep
 * them.
 *
 * @param ledger open
 * @param shop the hot folders
 */
record ProofShelf(Ledger ledger, WatchSettings shop) {
  /** The hot folder that a job came through; empty where it is none of these. */
  Optional<FolderSettings> folder(JobRecord job) {
    return folder(job.folder());
  }

  Optional<FolderSettings> folder(String name) {
    return shop.folders().stream().filter(folder -> folder.name().equals(name)).findFirst();
  }

  List<FolderSettings> folders() {
    return shop.folders();
  }

  Optional<ProofFiles> files(JobRecord job) {
    return folder(job).map(folder -> new ProofFiles(folder.places().outgoing()));
  }

  /** A job's strips as they were filed; empty where it has none. */
  Optional<StripsFile> strips(JobRecord job) throws InputException {
    Optional<String> json = ledger.stripsJson(job.jobId());
    return json.isEmpty() ? Optional.empty() : Optional.of(parsed(job, json.get()));
  }

  static StripsFile parsed(JobRecord job, String json) throws InputException {
    return StripsJson.read(job.strips().orElse(job.file()), json.getBytes(StandardCharsets.UTF_8));
  }
}
