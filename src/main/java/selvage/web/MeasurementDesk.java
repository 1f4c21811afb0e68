package selvage.web;

import java.io.IOException;
import java.nio.file.Path;
import java.util.Optional;
import selvage.finding.InputException;
import selvage.hotfolder.FolderSettings;

/** Where measurements that are handed in are scored. */
interface MeasurementDesk {
  /**
   * Scores a measurement and files it.
   *
   * @param folder whose settings count
   * @param name the measurement's own file name
   * @param measurement the file; it stays where it is
   * @param jobId the job that it is a measurement of; empty to find that by its strip
   * @return the score's id
   * @throws InputException where it can't be scored
   * @throws IOException where a folder or the ledger is away
   */
  String score(FolderSettings folder, String name, Path measurement, Optional<String> jobId)
      throws InputException, IOException;
}
