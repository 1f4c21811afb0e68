package selvage.survey;

import java.io.EOFException;
import java.io.IOException;
import java.nio.ByteBuffer;
import java.nio.channels.FileChannel;
import java.nio.file.Files;
import java.nio.file.Path;
import java.nio.file.StandardOpenOption;
import java.util.ArrayList;
import java.util.List;
import selvage.color.AimModel;
import selvage.color.AimSource;
import selvage.color.DisplayColor;
import selvage.ink.Colorant;
import selvage.separation.Band;
import selvage.separation.BandSink;

/**
 * A page's mixtures, kept in a temporary file until the colours of its spot inks are known: a
 * page's last object may be the one that defines a spot. The file holds, band by band, the tints of
 * the states that occur and then their numbers sample by sample.
 */
final class PreviewSpool implements BandSink, AutoCloseable {
  private static final int BUFFER_BYTES = 1 << 16;

  /** States whose colours are worked out at a time. */
  private static final int STATES_AT_A_TIME = 1 << 14;

  private record Stretch(int rows, List<Colorant> colorants, int states) {}

  private final int width;
  private final FileChannel file;
  private final ByteBuffer buffer = ByteBuffer.allocate(BUFFER_BYTES);
  private final List<Stretch> stretches = new ArrayList<>();

  /**
   * Begins a page.
   *
   * @param folder where the temporary file lies
   * @param width samples a row
   */
  PreviewSpool(Path folder, int width) throws IOException {
    this.width = width;
    Path temporary = Files.createTempFile(folder, ".preview", ".part");
    this.file =
        FileChannel.open(
            temporary,
            StandardOpenOption.READ,
            StandardOpenOption.WRITE,
            StandardOpenOption.DELETE_ON_CLOSE);
  }

  @Override
  public void take(Band band) throws IOException {
    int bottom = band.firstRow() + band.rows();
    int[] numbers = new int[band.stateCount()];
    for (int y = band.firstRow(); y < bottom; y++) {
      for (int x = 0; x < width; x++) {
        numbers[band.state(x, y)] = 1;
      }
    }
    int colorants = band.colorants().size();
    int used = 0;
    for (int state = 0; state < numbers.length; state++) {
      if (numbers[state] == 0) {
        continue;
      }
      numbers[state] = used++;
      for (int c = 0; c < colorants; c++) {
        room(Character.BYTES).putChar((char) band.tint(state, c));
      }
    }
    for (int y = band.firstRow(); y < bottom; y++) {
      for (int x = 0; x < width; x++) {
        room(Integer.BYTES).putInt(numbers[band.state(x, y)]);
      }
    }
    stretches.add(new Stretch(band.rows(), band.colorants(), used));
  }

  private ByteBuffer room(int bytes) throws IOException {
    if (buffer.remaining() < bytes) {
      empty();
    }
    return buffer;
  }

  private void empty() throws IOException {
    buffer.flip();
    while (buffer.hasRemaining()) {
      file.write(buffer);
    }
    buffer.clear();
  }

  /** Paints all rows in the colours of a model. */
  void paint(AimModel aims, DisplayColor display, PngRows png) throws IOException {
    empty();
    file.position(0);
    byte[] row = new byte[3 * width];
    ByteBuffer cells = ByteBuffer.allocate(Integer.BYTES * width);
    for (Stretch stretch : stretches) {
      byte[] rgb = colors(stretch, aims, display);
      for (int y = 0; y < stretch.rows(); y++) {
        read(cells);
        for (int x = 0; x < width; x++) {
          System.arraycopy(rgb, 3 * cells.getInt(), row, 3 * x, 3);
        }
        png.write(row);
      }
    }
  }

  private byte[] colors(Stretch stretch, AimModel aims, DisplayColor display) throws IOException {
    int columns = stretch.colorants().size();
    byte[] rgb = new byte[3 * stretch.states()];
    for (int first = 0; first < stretch.states(); first += STATES_AT_A_TIME) {
      int count = Math.min(STATES_AT_A_TIME, stretch.states() - first);
      char[] tints = new char[count * columns];
      ByteBuffer bytes = ByteBuffer.allocate(Character.BYTES * tints.length);
      read(bytes);
      bytes.asCharBuffer().get(tints);
      float[] lab = new float[3 * count];
      aims.aims(stretch.colorants(), tints, lab, new AimSource[count]);
      display.encode(lab, count, rgb, 3 * first);
    }
    return rgb;
  }

  /** Fills a buffer from the file and turns it to be read. */
  private void read(ByteBuffer bytes) throws IOException {
    bytes.clear();
    while (bytes.hasRemaining()) {
      if (file.read(bytes) < 0) {
        throw new EOFException("the temporary file of a preview was cut off");
      }
    }
    bytes.flip();
  }

  @Override
  public void close() throws IOException {
    file.close();
  }
}
