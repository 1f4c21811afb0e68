package selvage.score;

import java.util.List;
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
import selvage.finding.InputException;
import selvage.measurement.MatchedStrip;
import selvage.strip.Strip;

/** A strip of 70 patches, two spot inks among them, matched already: scored, diagnosed, mended. */
@State(Scope.Benchmark)
@BenchmarkMode(Mode.AverageTime)
@OutputTimeUnit(TimeUnit.MILLISECONDS)
@Fork(1)
@Warmup(iterations = 4, time = 2)
@Measurement(iterations = 5, time = 2)
public class ScoreBenchmark {
  private static final int PROOFS = 32;

  private final MatchedStrip[] proofs = new MatchedStrip[PROOFS];
  private Scoring scoring;
  private Diagnosing diagnosing;
  private Mender mender;
  private int next;

  /** Proofs that drift by chance. */
  @Setup
  public void print() throws InputException {
    Strip strip = ProofFixture.strip("full", 10);
    Random random = new Random(5);
    for (int i = 0; i < PROOFS; i++) {
      proofs[i] =
          ProofFixture.read(strip, ProofFixture.device(strip, ProofFixture.chance(random, 0.2)));
    }
    scoring = new Scoring(ToleranceSets.resolve("iso-12647-7-2016"), false);
    diagnosing = new Diagnosing(ProofFixture.CONDITION, List.of(strip));
    mender = new Mender(diagnosing, scoring, Mender.INK_LIMIT_PERCENT);
  }

  private MatchedStrip proof() {
    next = (next + 1) % PROOFS;
    return proofs[next];
  }

  /** The verdict alone. */
  @Benchmark
  public ProofScore score() throws InputException {
    return scoring.score(proof());
  }

  /** The verdict and what happened. */
  @Benchmark
  public ProofScore scoreAndDiagnosis() throws InputException {
    MatchedStrip proof = proof();
    return scoring.score(proof).with(diagnosing.diagnose(proof));
  }

  /** What would mend it, with its prediction. */
  @Benchmark
  public Mending mending() throws InputException {
    return mender.mend(List.of(proof()));
  }
}
