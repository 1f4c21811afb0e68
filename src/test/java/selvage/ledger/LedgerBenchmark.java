package selvage.ledger;

import java.io.IOException;
import java.nio.file.Files;
import java.nio.file.Path;
import java.util.Comparator;
import java.util.List;
import java.util.Optional;
import java.util.concurrent.TimeUnit;
import java.util.stream.Stream;
import org.openjdk.jmh.annotations.Benchmark;
import org.openjdk.jmh.annotations.BenchmarkMode;
import org.openjdk.jmh.annotations.Fork;
import org.openjdk.jmh.annotations.Measurement;
import org.openjdk.jmh.annotations.Mode;
import org.openjdk.jmh.annotations.OutputTimeUnit;
import org.openjdk.jmh.annotations.Scope;
import org.openjdk.jmh.annotations.Setup;
import org.openjdk.jmh.annotations.State;
import org.openjdk.jmh.annotations.TearDown;
import org.openjdk.jmh.annotations.Warmup;
import selvage.comparison.Comparison;
import selvage.comparison.ComparisonBuilder;
import selvage.comparison.Ewma;
import selvage.finding.InputException;
import selvage.workflow.Demo;

/** The demo job's two strips of 70 patches and their score, in an SQLite ledger. */
@State(Scope.Benchmark)
@BenchmarkMode(Mode.AverageTime)
@OutputTimeUnit(TimeUnit.MILLISECONDS)
@Fork(1)
@Warmup(iterations = 2, time = 3)
@Measurement(iterations = 3, time = 3)
public class LedgerBenchmark {
  private static final int JOBS = 100;

  private Path folder;
  private String strips;
  private String score;
  private Ledger filing;
  private Ledger filled;
  private int number;

  /** Runs the demo once, and files a hundred of its jobs. */
  @Setup
  public void fill() throws IOException, InputException {
    folder = Files.createTempDirectory("ledger");
    new Demo(folder.resolve("demo"), LedgerFixture.MORNING, step -> {}).run();
    strips = Files.readString(folder.resolve("demo/proof.strips.json"));
    score = Files.readString(folder.resolve("demo/bad-score.json"));
    filing = Ledger.open(folder.resolve("filing.db").toString());
    filled = Ledger.open(folder.resolve("filled.db").toString());
    Path shop = Files.createDirectory(folder.resolve("shop"));
    for (int i = 1; i <= JOBS; i++) {
      JobRecord job = LedgerFixture.stamped(i, i + ".pdf");
      ScoreRecord record = LedgerFixture.score(i, i);
      filled.fileJob(job, Optional.of(strips));
      filled.fileScore(record, score);
      Files.writeString(shop.resolve(i + ".job.json"), job.toJson());
      Files.writeString(shop.resolve(job.strips().orElseThrow()), strips);
      Files.writeString(shop.resolve(i + ".score.json"), record.appendedTo(score));
    }
  }

  /** Leaves nothing behind. */
  @TearDown
  public void remove() throws IOException {
    filing.close();
    filled.close();
    try (Stream<Path> files = Files.walk(folder)) {
      for (Path file : files.sorted(Comparator.reverseOrder()).toList()) {
        Files.delete(file);
      }
    }
  }

  /** One job and its score, each a transaction. */
  @Benchmark
  public void fileJobAndScore() throws InputException {
    number++;
    filing.fileJob(LedgerFixture.stamped(number, number + ".pdf"), Optional.of(strips));
    filing.fileScore(LedgerFixture.score(number, number), score);
  }

  /** A hundred jobs and scores from their files. */
  @Benchmark
  public LedgerRebuild.Outcome rebuild() throws InputException {
    return new LedgerRebuild(filled, List.of(folder.resolve("shop"))).run();
  }

  /** A hundred scores of two strips. */
  @Benchmark
  public Comparison compare() {
    return ComparisonBuilder.of(
        filled, ScoreFilter.ALL, Ewma.USUAL, ComparisonBuilder.BASELINE_PROOFS);
  }
}
