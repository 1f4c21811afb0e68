package selvage.survey;

import java.io.IOException;
import java.nio.file.Files;
import java.nio.file.Path;
import java.util.ArrayList;
import java.util.List;
import java.util.Locale;
import selvage.color.AimModel;
import selvage.color.DisplayColor;
import selvage.finding.InputException;
import selvage.separation.BandSink;
import selvage.separation.PageGeometry;

/**
 * Writes pictures of a job's pages as 8-bit sRGB PNG: each mixture in the colour of its aim, the
 * paper's own colour included, the whole MediaBox as displayed. They serve to see that a separation
 * is right, not to judge its colours. Files appear under their names when {@link #publish} is
 * called, all pages together; until then they are temporary.
 */
public final class PreviewWriter implements AutoCloseable {
  private record Picture(PngRows png, Path target) {}

  private final Path file;
  private final Path folder;
  private final boolean numbered;
  private final DisplayColor display = new DisplayColor();
  private final List<Picture> pictures = new ArrayList<>();

  /**
   * Begins a job's pictures.
   *
   * @param file the picture of one page; several pages are numbered after it, {@code NAME-p001.png}
   * @param pages how many will be written
   * @throws InputException where the file can't be written
   */
  public PreviewWriter(Path file, int pages) throws InputException {
    this.file = file;
    this.folder = file.toAbsolutePath().getParent();
    this.numbered = pages > 1;
    if (folder == null || Files.isDirectory(file)) {
      throw InputException.of(file.toString(), "expected a file's name, found a folder");
    }
    if (!Files.isDirectory(folder) || !Files.isWritable(folder)) {
      throw InputException.of(
          file.toString(), "the folder " + folder + " can't be written to; make or open it first");
    }
  }

  /** A page whose bands are being taken. */
  public final class Page implements AutoCloseable {
    private final int number;
    private final PageGeometry geometry;
    private final PreviewSpool spool;

    private Page(int number, PageGeometry geometry) throws IOException {
      this.number = number;
      this.geometry = geometry;
      this.spool = new PreviewSpool(folder, geometry.width());
    }

    /** What takes the page's bands. */
    public BandSink sink() {
      return spool;
    }

    /**
     * Paints the page when all of its bands are taken.
     *
     * @param aims knows every spot ink of the page
     */
    public void paint(AimModel aims) throws IOException {
      PngRows png =
          new PngRows(
              folder, geometry.width(), geometry.height(), geometry.dpi(), PngEncoder.Samples.SRGB);
      pictures.add(new Picture(png, target(number)));
      spool.paint(aims, display, png);
      png.end();
    }

    @Override
    public void close() throws IOException {
      spool.close();
    }
  }

  /**
   * Begins a page.
   *
   * @param number counted from 1
   */
  public Page page(int number, PageGeometry geometry) throws IOException {
    return new Page(number, geometry);
  }

  private Path target(int page) {
    if (!numbered) {
      return file;
    }
    String name = file.getFileName().toString();
    int dot = name.lastIndexOf('.');
    int end = dot > 0 ? dot : name.length();
    return file.resolveSibling(
        String.format(
            Locale.ROOT, "%s-p%03d%s", name.substring(0, end), page, name.substring(end)));
  }

  /** Puts the finished pictures in their places. */
  public void publish() throws IOException {
    for (Picture picture : pictures) {
      picture.png().moveTo(picture.target());
    }
  }

  @Override
  public void close() throws IOException {
    for (Picture picture : pictures) {
      picture.png().close();
    }
  }
}
