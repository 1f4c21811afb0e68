package selvage.ledger;

import static org.assertj.core.api.Assertions.assertThat;
import static org.assertj.core.api.Assertions.assertThatThrownBy;

import java.io.IOException;
import java.io.StringWriter;
import java.nio.file.Files;
import java.nio.file.Path;
import java.time.Instant;
import java.util.ArrayList;
import java.util.List;
import java.util.Map;
import java.util.Optional;
import java.util.concurrent.ExecutorService;
import java.util.concurrent.Executors;
import java.util.concurrent.Future;
import org.junit.jupiter.api.Test;
import org.junit.jupiter.api.io.TempDir;
import selvage.finding.InputException;
import selvage.ink.InkMixture;
import selvage.measurement.LabShift;
import selvage.score.Verdict;
import selvage.strip.PatchSet;

/** What a ledger does on every database. */
abstract class LedgerContract {
  private static final LabShift NONE = new LabShift(0, 0, 0);
  private static final LabShift FAR = new LabShift(-9, 0, 0);
  private static final String HOSTILE =
      "Bobby'); DROP TABLE job;-- \" \\ \u0000 \ud83d\ude80 \ud800 \t\n :id ? "
          + "\u00e9".repeat(4000);

  @TempDir Path folder;

  /** The address of an empty database; the same name is the same database. */
  abstract String url(String name) throws Exception;

  @Test
  void fileJob_stamped_comesBackAsItWasFiled() throws Exception {
    try (Ledger ledger = Ledger.open(url("a"))) {
      JobRecord job = LedgerFixture.stamped(1, "in/flyer.pdf");
      ledger.fileJob(job, Optional.of(LedgerFixture.strips("Proofer 1", "AAAA-0001", "AAAA-0002")));

      assertThat(ledger.job(job.jobId())).contains(job);
      assertThat(ledger.strips("AAAA-0002")).hasSize(1);
      FiledStrip strip = ledger.strips("AAAA-0002").get(0);
      assertThat(strip.job()).isEqualTo(job);
      assertThat(strip.page()).isEqualTo(2);
      assertThat(strip.stripsJson())
          .isEqualTo(LedgerFixture.strips("Proofer 1", "AAAA-0001", "AAAA-0002"));
      assertThat(ledger.jobOfStrips(strip.stripsJson())).contains(job);
      assertThat(ledger.count()).isEqualTo(new Ledger.Count(1, 2, 0));
    }
  }

  @Test
  void fileJob_twice_addsNothing() throws Exception {
    try (Ledger ledger = Ledger.open(url("a"))) {
      JobRecord job = LedgerFixture.stamped(1, "flyer.pdf");
      Optional<String> strips = Optional.of(LedgerFixture.strips("Proofer 1", "AAAA-0001"));
      ledger.fileJob(job, strips);
      String once = dump(ledger);
      ledger.fileJob(job, strips);

      assertThat(dump(ledger)).isEqualTo(once);
    }
  }

  @Test
  void fileJob_stripsThatAreNone_isRefusedAndLeavesNothing() throws Exception {
    try (Ledger ledger = Ledger.open(url("a"))) {
      assertThatThrownBy(
              () ->
                  ledger.fileJob(LedgerFixture.stamped(1, "a.pdf"), Optional.of("{\"selvage\":1}")))
          .isInstanceOf(InputException.class)
          .hasMessageContaining("a.pdf.proof.strips.json");
      assertThat(ledger.count()).isEqualTo(new Ledger.Count(0, 0, 0));
    }
  }

  @Test
  void jobs_byFilter_theLatestFirst() throws Exception {
    try (Ledger ledger = Ledger.open(url("a"))) {
      JobRecord first = LedgerFixture.stamped(1, "a.pdf");
      JobRecord second = LedgerFixture.refused(2, "b.pdf", "no PDF");
      JobRecord third = LedgerFixture.stamped(3, "c.pdf");
      for (JobRecord job : List.of(third, first, second)) {
        ledger.fileJob(job, Optional.empty());
      }

      assertThat(ledger.jobs(JobFilter.ALL, 10)).containsExactly(third, second, first);
      assertThat(ledger.jobs(JobFilter.ALL, 2)).containsExactly(third, second);
      assertThat(ledger.jobs(JobFilter.in(JobRecord.State.REFUSED), 10)).containsExactly(second);
      assertThat(ledger.jobs(JobFilter.ofBytes(first.sha256()), 10)).containsExactly(first);
      assertThat(
              ledger.jobs(
                  new JobFilter(
                      Optional.of(second.received()),
                      Optional.of(third.received()),
                      Optional.of("flyers"),
                      Optional.empty(),
                      Optional.empty()),
                  10))
          .containsExactly(second);
    }
  }

  @Test
  void jobs_byTextAndPage_countedAndFound() throws Exception {
    try (Ledger ledger = Ledger.open(url("a"))) {
      for (int i = 1; i <= 5; i++) {
        ledger.fileJob(LedgerFixture.stamped(i, "Flyer_" + i + ".pdf"), Optional.empty());
      }
      ledger.fileJob(LedgerFixture.refused(6, "100% card.pdf", "no PDF"), Optional.empty());

      assertThat(ledger.jobs(JobFilter.ALL, "", 2, 2))
          .extracting(JobRecord::file)
          .containsExactly("Flyer_4.pdf", "Flyer_3.pdf");
      assertThat(ledger.jobCount(JobFilter.ALL, "fLYER_")).isEqualTo(5);
      assertThat(ledger.jobCount(JobFilter.ALL, "%")).isEqualTo(1);
      assertThat(ledger.jobCount(JobFilter.ALL, "r_1!")).isEqualTo(0);
      assertThat(ledger.jobCount(JobFilter.ALL, HOSTILE)).isEqualTo(0);
      assertThat(ledger.jobCount(JobFilter.in(JobRecord.State.REFUSED), "flyer")).isEqualTo(0);
      assertThat(ledger.names().folders()).containsExactly("flyers");
    }
  }

  @Test
  void summaries_ofJobs_tellBothSetsOfTheStripsTogether() throws Exception {
    try (Ledger ledger = Ledger.open(url("a"))) {
      String strips = LedgerFixture.strips("Proofer 1", "AAAA-0001", "AAAA-0002");
      ledger.fileJob(LedgerFixture.stamped(1, "a.pdf"), Optional.of(strips));
      ledger.fileScore(
          LedgerFixture.score(1, 1), LedgerFixture.scoreJson(NONE, "AAAA-0001", "AAAA-0002"));
      ledger.fileScore(LedgerFixture.score(2, 1), LedgerFixture.scoreJson(FAR, "AAAA-0001"));

      List<ScoreSummary> summaries = ledger.summaries(List.of(LedgerFixture.id(1)));
      assertThat(summaries)
          .extracting(ScoreSummary::record)
          .containsExactly(LedgerFixture.score(2, 1), LedgerFixture.score(1, 1));
      assertThat(summaries.get(0).verdict()).isEqualTo(Verdict.FAIL);
      assertThat(summaries.get(0).job()).contains(Verdict.FAIL);
      assertThat(summaries.get(1).strips()).hasSize(2);
      assertThat(summaries.get(1).standard()).contains(Verdict.PASS);
      assertThat(summaries.get(1).simulated()).isTrue();
      assertThat(ledger.latestSummaries(1, 5)).containsExactly(summaries.get(1));
      assertThat(ledger.summaries(List.of())).isEmpty();
      assertThat(ledger.scoredStrips(LedgerFixture.score(1, 1).scoreId()))
          .extracting(ScoredStrip::stripId)
          .containsExactly("AAAA-0001", "AAAA-0002");
      assertThat(ledger.scoreJson(LedgerFixture.score(2, 1).scoreId()))
          .contains(LedgerFixture.scoreJson(FAR, "AAAA-0001"));
      assertThat(ledger.stripsJson(LedgerFixture.id(1))).contains(strips);
      assertThat(ledger.names().proofingSystems()).containsExactly("Proofer 1");
    }
  }

  @Test
  void latestStrips_sameStripInTwoJobs_isGivenOnceWithTheLatest() throws Exception {
    try (Ledger ledger = Ledger.open(url("a"))) {
      JobRecord first = LedgerFixture.stamped(1, "a.pdf");
      JobRecord other = LedgerFixture.stamped(2, "b.pdf");
      JobRecord again = LedgerFixture.stamped(3, "a again.pdf");
      ledger.fileJob(again, Optional.of(LedgerFixture.strips("Proofer 1", "AAAA-0001")));
      ledger.fileJob(first, Optional.of(LedgerFixture.strips("Proofer 1", "AAAA-0001")));
      ledger.fileJob(other, Optional.of(LedgerFixture.strips("Proofer 2", "BBBB-0001")));

      assertThat(ledger.strips("AAAA-0001"))
          .extracting(FiledStrip::job)
          .containsExactly(again, first);
      assertThat(ledger.latestStrips(0, 10))
          .extracting(FiledStrip::job)
          .containsExactly(again, other);
      assertThat(ledger.latestStrips(1, 1)).extracting(FiledStrip::job).containsExactly(other);
      assertThat(ledger.latestStrips(2, 10)).isEmpty();
    }
  }

  @Test
  void scoredStrips_ofAScoreWithItsJob_haveLabelSetsAndPatches() throws Exception {
    try (Ledger ledger = Ledger.open(url("a"))) {
      ledger.fileJob(
          LedgerFixture.stamped(1, "a.pdf"),
          Optional.of(LedgerFixture.strips("Proofer 1", "AAAA-0001")));
      ScoreRecord score = LedgerFixture.score(1, 1);
      ledger.fileScore(score, LedgerFixture.scoreJson(FAR, "AAAA-0001"));

      assertThat(ledger.score(score.scoreId())).contains(score);
      assertThat(ledger.scoresOfJob(LedgerFixture.id(1))).containsExactly(score);
      List<ScoredStrip> strips = scored(ledger, ScoreFilter.ALL);
      assertThat(strips).hasSize(1);
      ScoredStrip strip = strips.get(0);
      assertThat(strip.proofingSystem()).contains("Proofer 1");
      assertThat(strip.substrate()).contains("semi-matt 230");
      assertThat(strip.condition()).contains("FOGRA39");
      assertThat(strip.received()).isEqualTo(score.received());
      assertThat(strip.set(PatchSet.JOB).orElseThrow().verdict()).isEqualTo(Verdict.FAIL);
      assertThat(strip.set(PatchSet.STANDARD).orElseThrow().meanDe00()).isGreaterThan(5);
      assertThat(strip.patches()).hasSize(11);
      ScoredStrip.Reading spot =
          strip.patches().stream().filter(one -> one.id().equals("J02")).findFirst().orElseThrow();
      assertThat(spot.mixture()).contains(InkMixture.ofPercents(Map.of("Dune Red", 100.0)));
      assertThat(spot.lab().l() - spot.aim().l()).isEqualTo(-9);
      assertThat(spot.overLimit()).contains(true);
    }
  }

  @Test
  void scoredStrips_scoreBeforeItsJob_findsItLater() throws Exception {
    try (Ledger ledger = Ledger.open(url("a"))) {
      ledger.fileScore(LedgerFixture.score(1, 1), LedgerFixture.scoreJson(NONE, "AAAA-0001"));
      assertThat(scored(ledger, ScoreFilter.ALL).get(0).proofingSystem()).isEmpty();

      ledger.fileJob(
          LedgerFixture.stamped(2, "another copy.pdf"),
          Optional.of(LedgerFixture.strips("Proofer 2", "AAAA-0001")));
      assertThat(scored(ledger, ScoreFilter.ALL).get(0).proofingSystem()).contains("Proofer 2");

      ledger.fileJob(
          LedgerFixture.stamped(1, "a.pdf"),
          Optional.of(LedgerFixture.strips("Proofer 1", "AAAA-0001")));
      assertThat(scored(ledger, ScoreFilter.ALL).get(0).proofingSystem()).contains("Proofer 1");
    }
  }

  @Test
  void scoredStrips_byEachFilter_takeWhatItSays() throws Exception {
    try (Ledger ledger = Ledger.open(url("a"))) {
      for (int i = 1; i <= 3; i++) {
        ledger.fileJob(
            LedgerFixture.stamped(i, i + ".pdf"),
            Optional.of(LedgerFixture.strips("Proofer " + i, "AAAA-000" + i)));
        ledger.fileScore(LedgerFixture.score(i, i), LedgerFixture.scoreJson(NONE, "AAAA-000" + i));
      }
      Optional<Instant> second = Optional.of(LedgerFixture.score(2, 2).received());
      Optional<Instant> no = Optional.empty();
      Optional<String> any = Optional.empty();

      assertThat(stripIds(ledger, new ScoreFilter(second, no, any, any, any)))
          .containsExactly("AAAA-0003", "AAAA-0002");
      assertThat(stripIds(ledger, new ScoreFilter(no, second, any, any, any)))
          .containsExactly("AAAA-0001");
      assertThat(stripIds(ledger, new ScoreFilter(no, no, Optional.of("Proofer 2"), any, any)))
          .containsExactly("AAAA-0002");
      assertThat(stripIds(ledger, new ScoreFilter(no, no, any, Optional.of("matt"), any)))
          .isEmpty();
      assertThat(stripIds(ledger, new ScoreFilter(no, no, any, any, Optional.of("FOGRA39"))))
          .hasSize(3);
    }
  }

  @Test
  void everyText_hostile_isKeptAndIsNeverSql() throws Exception {
    try (Ledger ledger = Ledger.open(url("a"))) {
      JobRecord job = LedgerFixture.refused(1, HOSTILE, HOSTILE);
      ledger.fileJob(job, Optional.empty());
      ledger.fileJob(
          LedgerFixture.stamped(2, HOSTILE),
          Optional.of(LedgerFixture.strips(HOSTILE, "AAAA-0001")));
      ledger.fileScore(LedgerFixture.score(1, 2), LedgerFixture.scoreJson(NONE, "AAAA-0001"));
      ledger.calibrate(new Calibration(HOSTILE, LedgerFixture.MORNING, HOSTILE));

      assertThat(ledger.job(job.jobId())).contains(job);
      assertThat(job.why().orElseThrow()).contains("DROP TABLE", "\ud83d\ude80", "\uFFFD");
      String system = ledger.calibrations().get(0).proofingSystem();
      assertThat(
              stripIds(
                  ledger,
                  new ScoreFilter(
                      Optional.empty(),
                      Optional.empty(),
                      Optional.of(system),
                      Optional.empty(),
                      Optional.empty())))
          .containsExactly("AAAA-0001");
      assertThat(JobRecord.parse("copy", job.toJson())).isEqualTo(job);
    }
  }

  @Test
  void rebuild_fromTheFiles_equalsTheLedger() throws Exception {
    fileSeason();
    try (Ledger ledger = Ledger.open(url("a"));
        Ledger anew = Ledger.open(url("b"))) {
      assertThat(ledger.count().jobs()).isEqualTo(4);
      String before = dump(ledger);

      LedgerRebuild.Outcome outcome =
          new LedgerRebuild(ledger, List.of(folder.resolve("shop"))).run();
      assertThat(outcome.jobs()).isEqualTo(4);
      assertThat(outcome.scores()).isEqualTo(2);
      assertThat(outcome.passed()).isEmpty();
      assertThat(dump(ledger)).isEqualTo(before);

      new LedgerRebuild(anew, List.of(folder.resolve("shop"))).run();
      assertThat(dump(anew))
          .isEqualTo(before.substring(0, before.indexOf("# calibration")) + "# calibration\n");
    }
  }

  @Test
  void rebuild_withFilesThatAreNone_saysWhichAndWhy() throws Exception {
    fileSeason();
    Path shop = folder.resolve("shop");
    Files.writeString(shop.resolve("damaged.job.json"), "{\"selvage\": 1, ");
    Files.writeString(
        shop.resolve("twice.job.json"), Files.readString(shop.resolve("1.pdf.job.json")));
    Files.writeString(shop.resolve("lost.job.json"), LedgerFixture.stamped(9, "lost.pdf").toJson());
    Files.writeString(shop.resolve("mine.score.json"), LedgerFixture.scoreJson(NONE, "AAAA-0001"));
    try (Ledger ledger = Ledger.open(url("a"))) {
      String before = dump(ledger);
      LedgerRebuild.Outcome outcome = new LedgerRebuild(ledger, List.of(shop)).run();

      assertThat(outcome.passed())
          .extracting(passed -> passed.file().getFileName() + ": " + passed.why())
          .satisfiesExactly(
              one -> assertThat(one).contains("damaged.job.json", "JSON"),
              one -> assertThat(one).contains("lost.pdf.proof.strips.json", "no such file"),
              one -> assertThat(one).contains("twice.job.json", "the same job as"),
              one -> assertThat(one).contains("mine.score.json", "never filed"));
      assertThat(dump(ledger)).isEqualTo(before);
    }
  }

  @Test
  void rebuild_folderThatIsNone_leavesTheLedgerAsItWas() throws Exception {
    fileSeason();
    try (Ledger ledger = Ledger.open(url("a"))) {
      String before = dump(ledger);
      assertThatThrownBy(() -> new LedgerRebuild(ledger, List.of(folder.resolve("nowhere"))).run())
          .isInstanceOf(InputException.class);
      assertThat(dump(ledger)).isEqualTo(before);
    }
  }

  @Test
  void open_again_findsWhatWasFiled() throws Exception {
    try (Ledger ledger = Ledger.open(url("a"))) {
      ledger.fileJob(LedgerFixture.refused(1, "a.pdf", "no"), Optional.empty());
    }
    try (Ledger ledger = Ledger.openExisting(url("a"))) {
      assertThat(ledger.count().jobs()).isEqualTo(1);
    }
  }

  @Test
  void openExisting_databaseWithoutALedger_isRefusedAndStaysEmpty() throws Exception {
    String url = url("a");
    if (!url.startsWith("jdbc:")) {
      Files.createFile(Path.of(url));
    }
    for (int i = 0; i < 2; i++) {
      assertThatThrownBy(() -> Ledger.openExisting(url))
          .isInstanceOf(InputException.class)
          .hasMessageContaining("holds no ledger");
    }
  }

  @Test
  void together_oneOfThemFails_keepsNone() throws Exception {
    try (Ledger ledger = Ledger.open(url("a"))) {
      assertThatThrownBy(
              () ->
                  ledger.together(
                      () -> {
                        ledger.fileJob(LedgerFixture.refused(1, "a.pdf", "no"), Optional.empty());
                        ledger.fileJob(LedgerFixture.stamped(2, "b.pdf"), Optional.of("{}"));
                      }))
          .isInstanceOf(InputException.class);
      assertThat(ledger.count().jobs()).isZero();
      ledger.together(
          () -> {
            ledger.fileJob(LedgerFixture.refused(1, "a.pdf", "no"), Optional.empty());
            ledger.fileJob(LedgerFixture.refused(2, "b.pdf", "no"), Optional.empty());
          });
      assertThat(ledger.count().jobs()).isEqualTo(2);
    }
  }

  @Test
  void use_bySeveralThreads_losesNothing() throws Exception {
    ExecutorService threads = Executors.newFixedThreadPool(4);
    try (Ledger ledger = Ledger.open(url("a"))) {
      List<Future<?>> work = new ArrayList<>();
      for (int i = 0; i < 4; i++) {
        int first = 1 + i * 25;
        work.add(
            threads.submit(
                () -> {
                  for (int n = first; n < first + 25; n++) {
                    ledger.fileJob(LedgerFixture.refused(n, n + ".pdf", "no"), Optional.empty());
                    assertThat(ledger.job(LedgerFixture.id(n))).isPresent();
                  }
                  return null;
                }));
      }
      for (Future<?> one : work) {
        one.get();
      }
      assertThat(ledger.count().jobs()).isEqualTo(100);
    } finally {
      threads.shutdownNow();
    }
  }

  @Test
  void open_twoAtOnce_bothFindALedger() throws Exception {
    ExecutorService threads = Executors.newFixedThreadPool(2);
    String url = url("a");
    try {
      Future<Ledger> one = threads.submit(() -> Ledger.open(url));
      Future<Ledger> other = threads.submit(() -> Ledger.open(url));
      try (Ledger first = one.get();
          Ledger second = other.get()) {
        first.fileJob(LedgerFixture.refused(1, "a.pdf", "no"), Optional.empty());
        assertThat(second.job(LedgerFixture.id(1))).isPresent();
      }
    } finally {
      threads.shutdownNow();
    }
  }

  /** Three jobs and two scores in the ledger {@code a}, with their files in {@code shop}. */
  void fileSeason() throws Exception {
    Path shop = Files.createDirectories(folder.resolve("shop"));
    try (Ledger ledger = Ledger.open(url("a"))) {
      for (int i = 1; i <= 2; i++) {
        JobRecord job = LedgerFixture.stamped(i, "below/" + i + ".pdf");
        String strips = LedgerFixture.strips("Proofer " + i, "AAAA-000" + i, "BBBB-000" + i);
        ledger.fileJob(job, Optional.of(strips));
        Files.writeString(shop.resolve(i + ".pdf.job.json"), job.toJson());
        Files.writeString(shop.resolve(i + ".pdf.proof.strips.json"), strips);
      }
      JobRecord refused = LedgerFixture.refused(3, "c.pdf", "not a PDF");
      ledger.fileJob(refused, Optional.empty());
      Files.writeString(shop.resolve("c.pdf.job.json"), refused.toJson());

      String handStrips = LedgerFixture.strips("Proofer 3", "CCCC-0001");
      JobRecord byHand = HandStamped.job("hand.strips.json", handStrips);
      ledger.fileJob(byHand, Optional.of(handStrips));
      Files.writeString(shop.resolve("hand.strips.json"), handStrips);
      Files.writeString(
          shop.resolve("unscored.strips.json"), LedgerFixture.strips("Proofer 3", "DDDD-0001"));

      fileScore(ledger, shop, LedgerFixture.score(1, 1), FAR, "AAAA-0001", "BBBB-0001");
      ScoreRecord ofHand = LedgerFixture.score(2, 0);
      fileScore(
          ledger,
          shop,
          new ScoreRecord(
              ofHand.scoreId(),
              ofHand.folder(),
              ofHand.file(),
              ofHand.sha256(),
              ofHand.received(),
              ofHand.scored(),
              Optional.of(byHand.jobId()),
              ofHand.proof()),
          NONE,
          "CCCC-0001");
      ledger.calibrate(new Calibration("Proofer 1", LedgerFixture.MORNING, "after new inks"));
    }
  }

  private static void fileScore(
      Ledger ledger, Path shop, ScoreRecord score, LabShift shift, String... stripIds)
      throws InputException, IOException {
    String json = score.appendedTo(LedgerFixture.scoreJson(shift, stripIds));
    assertThat(ScoreRecord.parse("score", json)).contains(score);
    ledger.fileScore(score, json);
    Files.writeString(shop.resolve(score.scoreId() + ".score.json"), json);
  }

  static String dump(Ledger ledger) throws IOException {
    StringWriter text = new StringWriter();
    ledger.dump(text);
    return text.toString();
  }

  private static List<ScoredStrip> scored(Ledger ledger, ScoreFilter filter) {
    List<ScoredStrip> strips = new ArrayList<>();
    ledger.scoredStrips(filter, strips::add);
    return strips;
  }

  private static List<String> stripIds(Ledger ledger, ScoreFilter filter) {
    return scored(ledger, filter).stream().map(ScoredStrip::stripId).toList();
  }
}
