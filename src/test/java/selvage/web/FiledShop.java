package selvage.web;

import java.io.IOException;
import java.net.http.HttpResponse;
import java.nio.file.Path;
import java.util.Optional;
import selvage.finding.InputException;
import selvage.ledger.JobRecord;
import selvage.ledger.Ledger;

/** A served shop whose ledger is filled by hand. */
final class FiledShop implements AutoCloseable {
  static final String FOLDER = "house";

  final WebShop web;
  final Ledger ledger;
  final Path outgoing;

  FiledShop(Path root) throws InputException, IOException {
    web = WebShop.open(root, 4L << 20);
    ledger = Ledger.open(root.resolve("ledger.db").toString());
    outgoing = root.resolve("out");
  }

  /** Files a job as one of this shop's folder. */
  void file(JobRecord job, Optional<String> strips) throws InputException {
    ledger.fileJob(
        new JobRecord(
            job.jobId(),
            FOLDER,
            job.file(),
            job.sha256(),
            job.bytes(),
            job.received(),
            job.finished(),
            job.state(),
            job.proof(),
            job.strips(),
            job.why()),
        strips);
  }

  HttpResponse<String> get(String path) throws IOException, InterruptedException {
    return web.send(web.request(path).header("Accept-Language", "en-GB").build());
  }

  @Override
  public void close() {
    web.close();
    ledger.close();
  }
}
