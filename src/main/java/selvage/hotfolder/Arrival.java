package selvage.hotfolder;

import java.nio.file.Path;
import java.nio.file.attribute.FileTime;

/**
 * A file that lies in a folder and seems complete.
 *
 * @param folder where it lies
 * @param kind what it is dropped for
 * @param file its path
 * @param relative its path below the folder, with slashes
 * @param bytes its size
 * @param modified its time of change
 * @param order of arrival among all, for fairness
 */
record Arrival(
    FolderSettings folder,
    Kind kind,
    Path file,
    String relative,
    long bytes,
    FileTime modified,
    long order) {}
