package selvage.hotfolder;

import java.io.IOException;
import java.nio.file.DirectoryStream;
import java.nio.file.Files;
import java.nio.file.Path;

/**
 * Which files some process of this machine holds open for writing, as far as the system lets this
 * process see (Linux: {@code /proc}). Elsewhere, and for writers on other machines, it knows
 * nothing, and a file's steady size has to do.
 */
final class OpenFiles {
  private static final Path PROCESSES = Path.of("/proc");

  /** The access mode within the open flags, as fcntl.h has them. */
  private static final long ACCESS_MODE = 3;

  private OpenFiles() {}

  /** Whether a file is known to be open for writing. */
  static boolean isWritten(Path file) {
    if (!Files.isDirectory(PROCESSES.resolve("self"))) {
      return false;
    }
    Path real;
    try (DirectoryStream<Path> processes = Files.newDirectoryStream(PROCESSES, "[0-9]*")) {
      real = file.toRealPath();
      for (Path process : processes) {
        if (holds(process, real)) {
          return true;
        }
      }
    } catch (IOException | java.nio.file.DirectoryIteratorException e) {
      return false;
    }
    return false;
  }

  private static boolean holds(Path process, Path file) {
    try (DirectoryStream<Path> open = Files.newDirectoryStream(process.resolve("fd"))) {
      for (Path descriptor : open) {
        if (leadsTo(descriptor, file) && isForWriting(process, descriptor)) {
          return true;
        }
      }
    } catch (IOException | java.nio.file.DirectoryIteratorException e) {
      // Another user's process, or one that has just ended.
    }
    return false;
  }

  private static boolean leadsTo(Path descriptor, Path file) {
    try {
      return Files.readSymbolicLink(descriptor).equals(file);
    } catch (IOException e) {
      return false;
    }
  }

  private static boolean isForWriting(Path process, Path descriptor) throws IOException {
    Path info = process.resolve("fdinfo").resolve(String.valueOf(descriptor.getFileName()));
    for (String line : Files.readAllLines(info)) {
      if (line.startsWith("flags:")) {
        return (Long.parseLong(line.substring(6).strip(), 8) & ACCESS_MODE) != 0;
      }
    }
    return false;
  }
}
