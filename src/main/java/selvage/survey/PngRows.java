package selvage.survey;

import java.io.BufferedOutputStream;
import java.io.IOException;
import java.nio.file.Files;
import java.nio.file.Path;
import java.nio.file.StandardCopyOption;
import java.nio.file.attribute.PosixFilePermissions;

/** A PNG that is written row by row into a file; until {@link #moveTo} the file is temporary. */
final class PngRows implements AutoCloseable {
  private final Path temporary;
  private final PngEncoder png;
  private boolean ended;
  private boolean moved;

  /**
   * Begins an image.
   *
   * @param folder where the temporary file lies
   * @param width samples a row
   * @param dpi samples an inch
   */
  PngRows(Path folder, int width, int height, double dpi, PngEncoder.Samples samples)
      throws IOException {
    temporary = Files.createTempFile(folder, ".plane", ".part");
    png =
        new PngEncoder(
            new BufferedOutputStream(Files.newOutputStream(temporary)),
            width,
            height,
            dpi,
            samples);
  }

  void write(byte[] row) throws IOException {
    png.write(row);
  }

  /** Ends the image; it can still be moved or dropped. */
  void end() throws IOException {
    if (ended) {
      return;
    }
    png.end();
    png.close();
    ended = true;
  }

  /** Ends the image and gives it its name. */
  void moveTo(Path target) throws IOException {
    end();
    if (Files.getFileStore(temporary).supportsFileAttributeView("posix")) {
      // A temporary file is its writer's alone; a result is for everyone whom the folder admits.
      Files.setPosixFilePermissions(temporary, PosixFilePermissions.fromString("rw-r--r--"));
    }
    Files.move(temporary, target, StandardCopyOption.REPLACE_EXISTING);
    moved = true;
  }

  @Override
  public void close() throws IOException {
    if (!ended) {
      png.close();
    }
    if (!moved) {
      Files.deleteIfExists(temporary);
    }
  }
}
