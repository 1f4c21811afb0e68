package selvage.hotfolder;

import io.micrometer.core.instrument.Gauge;
import io.micrometer.core.instrument.Timer;
import io.micrometer.prometheusmetrics.PrometheusConfig;
import io.micrometer.prometheusmetrics.PrometheusMeterRegistry;
import java.time.Duration;
import java.util.function.IntSupplier;

/** Counts and times, for whoever looks after the machine. */
final class Metrics implements AutoCloseable {
  private final PrometheusMeterRegistry registry =
      new PrometheusMeterRegistry(PrometheusConfig.DEFAULT);

  /** A file was settled, with what outcome and in what time. */
  void settled(String outcome, Duration took) {
    Timer.builder("selvage.files.settled")
        .description("Files worked on, by outcome, from being taken up to being settled")
        .tag("outcome", outcome)
        .publishPercentileHistogram()
        .minimumExpectedValue(Duration.ofMillis(10))
        .maximumExpectedValue(Duration.ofMinutes(10))
        .register(registry)
        .record(took);
  }

  /** Work failed for a reason that lies outside the file. */
  void troubled() {
    registry.counter("selvage.troubles").increment();
  }

  /** How many files wait, and how many hindrances there are now. */
  void watch(IntSupplier waiting, IntSupplier troubles) {
    Gauge.builder("selvage.files.waiting", waiting::getAsInt)
        .description("Files known and not settled")
        .strongReference(true)
        .register(registry);
    Gauge.builder("selvage.troubles.now", troubles::getAsInt)
        .description("Hindrances that last: folders away, disks full, the ledger away")
        .strongReference(true)
        .register(registry);
  }

  /** All of it, in the text form of Prometheus. */
  String text() {
    return registry.scrape();
  }

  @Override
  public void close() {
    registry.close();
  }
}
