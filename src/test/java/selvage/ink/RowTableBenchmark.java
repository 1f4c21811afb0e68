package selvage.ink;

import java.util.Random;
import java.util.concurrent.TimeUnit;
import org.openjdk.jmh.annotations.Benchmark;
import org.openjdk.jmh.annotations.BenchmarkMode;
import org.openjdk.jmh.annotations.Fork;
import org.openjdk.jmh.annotations.Measurement;
import org.openjdk.jmh.annotations.Mode;
import org.openjdk.jmh.annotations.OutputTimeUnit;
import org.openjdk.jmh.annotations.Scope;
import org.openjdk.jmh.annotations.Setup;
import org.openjdk.jmh.annotations.State;
import org.openjdk.jmh.annotations.Warmup;

/** Numbering the mixtures of a photograph: 300,000 rows of six inks. */
@State(Scope.Benchmark)
@BenchmarkMode(Mode.AverageTime)
@OutputTimeUnit(TimeUnit.MILLISECONDS)
@Fork(1)
@Warmup(iterations = 5, time = 1)
@Measurement(iterations = 8, time = 1)
public class RowTableBenchmark {
  private static final int ROWS = 300_000;
  private static final int INKS = 6;

  private final char[][] rows = new char[ROWS][];
  private RowTable known;

  @Setup
  public void draw() {
    Random random = new Random(1);
    known = new RowTable(INKS);
    for (int i = 0; i < ROWS; i++) {
      char[] row = new char[INKS];
      for (int c = 0; c < 4; c++) {
        row[c] = (char) (Tint.PER_BYTE * random.nextInt(256));
      }
      rows[i] = row;
      known.intern(row);
    }
  }

  @Benchmark
  public RowTable internNewRows() {
    RowTable table = new RowTable(INKS);
    for (char[] row : rows) {
      table.intern(row);
    }
    return table;
  }

  @Benchmark
  public int internKnownRows() {
    int sum = 0;
    for (char[] row : rows) {
      sum += known.intern(row);
    }
    return sum;
  }
}
