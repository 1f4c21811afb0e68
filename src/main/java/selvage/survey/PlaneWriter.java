package selvage.survey;

import java.io.IOException;
import java.net.URLEncoder;
import java.nio.charset.StandardCharsets;
import java.nio.file.Files;
import java.nio.file.Path;
import java.util.ArrayList;
import java.util.Arrays;
import java.util.List;
import selvage.ink.Colorant;
import selvage.ink.Tint;
import selvage.separation.Band;
import selvage.separation.BandSink;
import selvage.separation.PageGeometry;

/**
 * Writes one 8-bit grey PNG a colorant, {@code pNNN.NAME.png}: 255 is no ink, 0 is 100 %. Files
 * appear under their names when {@link #finish} is called; until then they are temporary.
 */
public final class PlaneWriter implements BandSink, AutoCloseable {
  private final Path folder;
  private final int page;
  private final int width;
  private final int height;
  private final double dpi;
  private final List<PngRows> planes = new ArrayList<>();
  private final List<Path> names = new ArrayList<>();
  private int rowsTaken;

  /**
   * Begins the planes of a page.
   *
   * @param folder made where it is missing
   * @param page counted from 1
   */
  public PlaneWriter(Path folder, int page, PageGeometry geometry) throws IOException {
    this.folder = Files.createDirectories(folder);
    this.page = page;
    this.width = geometry.width();
    this.height = geometry.height();
    this.dpi = geometry.dpi();
  }

  @Override
  public void take(Band band) throws IOException {
    byte[] row = new byte[width];
    for (int c = 0; c < band.colorants().size(); c++) {
      if (c == planes.size()) {
        open(band.colorants().get(c));
      }
      byte[] gray = new byte[band.stateCount()];
      for (int state = 0; state < gray.length; state++) {
        gray[state] = (byte) (255 - Math.round(band.tint(state, c) * 255f / Tint.FULL));
      }
      for (int y = band.firstRow(); y < band.firstRow() + band.rows(); y++) {
        for (int x = 0; x < width; x++) {
          row[x] = gray[band.state(x, y)];
        }
        planes.get(c).write(row);
      }
    }
    rowsTaken += band.rows();
  }

  /** Begins a plane; rows above the band where its colorant was first met have none of it. */
  private void open(Colorant colorant) throws IOException {
    String encoded = URLEncoder.encode(colorant.name(), StandardCharsets.UTF_8).replace("+", "%20");
    names.add(folder.resolve(String.format("p%03d.%s.png", page, encoded)));
    PngRows plane = new PngRows(folder, width, height, dpi, PngEncoder.Samples.GRAY);
    planes.add(plane);
    byte[] blank = new byte[width];
    Arrays.fill(blank, (byte) 255);
    for (int y = 0; y < rowsTaken; y++) {
      plane.write(blank);
    }
  }

  /** Puts the finished files in their places. */
  public void finish() throws IOException {
    for (int i = 0; i < planes.size(); i++) {
      planes.get(i).moveTo(names.get(i));
    }
  }

  @Override
  public void close() throws IOException {
    for (PngRows plane : planes) {
      plane.close();
    }
  }
}
