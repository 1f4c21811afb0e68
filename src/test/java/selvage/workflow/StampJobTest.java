package selvage.workflow;

import static org.assertj.core.api.Assertions.assertThat;
import static org.assertj.core.api.Assertions.assertThatThrownBy;

import java.io.IOException;
import java.nio.charset.StandardCharsets;
import java.nio.file.Files;
import java.nio.file.Path;
import java.time.Instant;
import java.util.List;
import java.util.Map;
import java.util.Optional;
import java.util.stream.Stream;
import org.apache.pdfbox.Loader;
import org.apache.pdfbox.cos.COSName;
import org.apache.pdfbox.pdmodel.PDDocument;
import org.apache.pdfbox.pdmodel.PDPage;
import org.apache.pdfbox.pdmodel.encryption.AccessPermission;
import org.apache.pdfbox.pdmodel.encryption.StandardProtectionPolicy;
import org.junit.jupiter.api.Test;
import org.junit.jupiter.api.io.TempDir;
import selvage.cgats.CgatsReader;
import selvage.cgats.CgatsTable;
import selvage.finding.Finding;
import selvage.finding.InputException;
import selvage.ink.InkMixture;
import selvage.separation.ObjectKind;
import selvage.strip.CensusBuilder;
import selvage.strip.Patch;
import selvage.strip.PatchSet;
import selvage.strip.PlainCondition;
import selvage.strip.Strip;
import selvage.strip.StripsFile;
import selvage.strip.StripsJson;
import selvage.survey.AreaKind;
import selvage.survey.Census;
import selvage.survey.JobFile;
import selvage.survey.JobSurvey;
import selvage.survey.PageSurvey;

class StampJobTest {
  private static final Instant TIME = Instant.parse("2026-11-25T10:03:00Z");

  @TempDir Path folder;

  private static StampOptions options() {
    return new StampOptions(
        6, "basic", "handheld-spot", Optional.empty(), false, Optional.empty(), List.of(), TIME);
  }

  private static Census inked(double black) {
    return new CensusBuilder()
        .add(InkMixture.PAPER, 500, ObjectKind.FILL)
        .add(InkMixture.ofPercents(Map.of("Dune Red", 100.0)), 300, ObjectKind.FILL)
        .add(InkMixture.ofPercents(Map.of("Dune Red", 33.0)), 120, ObjectKind.FILL)
        .add(InkMixture.cmyk(0, 0, 0, 100), 60, ObjectKind.TEXT)
        .add(InkMixture.cmyk(20, 30, 70, black), 20, ObjectKind.FILL)
        .build();
  }

  private static Census blank() {
    return new CensusBuilder().add(InkMixture.PAPER, 1000, ObjectKind.FILL).build();
  }

  private static JobSurvey survey(Census... pages) {
    List<PageSurvey> surveys = new java.util.ArrayList<>();
    for (int i = 0; i < pages.length; i++) {
      surveys.add(
          new PageSurvey(i + 1, 150, AreaKind.TRIM, 210, 297, pages[i], Map.of(), null, List.of()));
    }
    return new JobSurvey(
        new JobFile("flyer.pdf", "0123456789abcdef".repeat(4), pages.length),
        new PlainCondition(),
        surveys);
  }

  private Path job(int pages) throws IOException {
    Path job = folder.resolve("flyer.pdf");
    try (PDDocument document = new PDDocument()) {
      for (int i = 0; i < pages; i++) {
        document.addPage(new PDPage());
      }
      document.save(job.toFile());
    }
    return job;
  }

  private StampJob.Result run(Path job, JobSurvey survey, StampOptions options)
      throws IOException, InputException {
    Path proof = folder.resolve("flyer.proof.pdf");
    return StampJob.run(job, survey, proof, options);
  }

  private List<String> files() throws IOException {
    try (Stream<Path> files = Files.list(folder)) {
      return files.map(file -> file.getFileName().toString()).sorted().toList();
    }
  }

  @Test
  void run_twoPages_writesProofRecordAndOneTextAPage() throws Exception {
    run(job(2), survey(inked(0), inked(40)), options());
    assertThat(files())
        .containsExactly(
            "flyer.pdf",
            "flyer.proof.pdf",
            "flyer.proof.strip-p001.txt",
            "flyer.proof.strip-p002.txt",
            "flyer.proof.strips.json");
    byte[] json = Files.readAllBytes(folder.resolve("flyer.proof.strips.json"));
    StripsFile record = StripsJson.read("flyer.proof.strips.json", json);
    assertThat(record.proof()).isEqualTo("flyer.proof.pdf");
    assertThat(record.strips()).extracting(Strip::page).containsExactly(1, 2);
    assertThat(record.strips()).extracting(Strip::stripId).doesNotHaveDuplicates();
  }

  @Test
  void run_mixtureOfBothSets_isPrintedOnceAndStandsInBoth() throws Exception {
    Strip strip = run(job(1), survey(inked(0)), options()).strips().strips().get(0);
    List<Patch> black =
        strip.patches().stream()
            .filter(patch -> patch.mixture().equals(InkMixture.cmyk(0, 0, 0, 100)))
            .toList();
    assertThat(black).extracting(Patch::set).containsExactly(PatchSet.JOB, PatchSet.STANDARD);
    assertThat(black.get(0).box()).isEqualTo(black.get(1).box());
    assertThat(black.get(0).areaPercent()).isEqualTo(6.0);
    assertThat(black.get(1).areaPercent()).isEqualTo(6.0);
  }

  @Test
  void run_stripText_parsesBackWithTintsAimsAndSpots() throws Exception {
    Strip strip = run(job(1), survey(inked(0)), options()).strips().strips().get(0);
    CgatsTable table = CgatsReader.read(folder.resolve("flyer.proof.strip-p001.txt")).first();
    assertThat(table.keyword("STRIP_ID")).contains(strip.stripId());
    assertThat(table.keyword("SPOT_1_NAME")).contains("Dune Red");
    int spot = table.column("SPOT_1").orElseThrow();
    int id = table.column("SAMPLE_ID").orElseThrow();
    int lightness = table.column("LAB_L").orElseThrow();
    int found = 0;
    for (int row = 0; row < table.rowCount(); row++) {
      for (Patch patch : strip.patches()) {
        if (patch.id().equals(table.text(row, id))) {
          double tint = 0;
          if (patch.mixture().hasSpot()) {
            tint = patch.mixture().percent(patch.mixture().units().lastKey());
          }
          assertThat(table.number(row, spot)).isEqualTo(tint);
          assertThat(table.number(row, lightness))
              .isCloseTo(patch.aim().lab().l(), org.assertj.core.api.Assertions.within(5e-5));
          found++;
        }
      }
    }
    assertThat(found).isEqualTo(table.rowCount());
    long boxes = strip.patches().stream().map(Patch::box).distinct().count();
    assertThat(table.rowCount()).isEqualTo((int) boxes);
  }

  @Test
  void run_twice_givesTheSameBytes() throws Exception {
    Path job = job(1);
    run(job, survey(inked(0)), options());
    byte[] first = Files.readAllBytes(folder.resolve("flyer.proof.pdf"));
    run(job, survey(inked(0)), options());
    assertThat(Files.readAllBytes(folder.resolve("flyer.proof.pdf"))).isEqualTo(first);
  }

  @Test
  void run_pageWithoutInk_isLeftAndNoted() throws Exception {
    StampJob.Result result = run(job(2), survey(inked(0), blank()), options());
    assertThat(result.strips().strips()).hasSize(1);
    assertThat(result.findings()).extracting(Finding::code).contains("page-without-ink");
  }

  @Test
  void run_noInkAnywhere_isRefusedAndWritesNothing() throws Exception {
    Path job = job(1);
    assertThatThrownBy(() -> run(job, survey(blank()), options()))
        .isInstanceOf(InputException.class)
        .hasMessageContaining("expected ink");
    assertThat(files()).containsExactly("flyer.pdf");
  }

  @Test
  void run_proofOverJob_isRefused() throws Exception {
    Path job = job(1);
    assertThatThrownBy(() -> StampJob.run(job, survey(inked(0)), job, options()))
        .isInstanceOf(InputException.class)
        .hasMessageContaining("would overwrite");
  }

  @Test
  void run_truncatedJob_isRefusedAndWritesNothing() throws Exception {
    Path job = folder.resolve("flyer.pdf");
    Files.write(job, "%PDF-1.7\n1 0 obj << /Type /Cat".getBytes(StandardCharsets.US_ASCII));
    assertThatThrownBy(() -> run(job, survey(inked(0)), options()))
        .isInstanceOf(InputException.class)
        .hasMessageContaining("flyer.pdf");
    assertThat(files()).containsExactly("flyer.pdf");
  }

  @Test
  void run_perJob_putsOneStripForAllPagesOnTheFirst() throws Exception {
    StampOptions options =
        new StampOptions(
            6,
            "none",
            "handheld-spot",
            Optional.empty(),
            true,
            Optional.of(folder.resolve("strip.pdf")),
            List.of(),
            TIME);
    StripsFile record = run(job(2), survey(inked(0), inked(40)), options).strips();
    assertThat(record.strips()).hasSize(1);
    Strip strip = record.strips().get(0);
    assertThat(strip.page()).isEqualTo(1);
    assertThat(strip.patches(PatchSet.JOB))
        .extracting(Patch::mixture)
        .contains(InkMixture.cmyk(20, 30, 70, 0), InkMixture.cmyk(20, 30, 70, 40));
    assertThat(strip.patches(PatchSet.STANDARD))
        .allSatisfy(patch -> assertThat(patch.role()).isEqualTo("substrate"));
    try (PDDocument alone = Loader.loadPDF(folder.resolve("strip.pdf").toFile())) {
      assertThat(alone.getNumberOfPages()).isEqualTo(1);
    }
  }

  private static Census ofManyColors() {
    CensusBuilder census = new CensusBuilder().add(InkMixture.PAPER, 500, ObjectKind.FILL);
    for (int i = 0; i < 400; i++) {
      InkMixture mixture = InkMixture.cmyk(i * 7 % 100, i * 13 % 95, i * 29 % 90, i % 30);
      census.add(mixture, 100 + i, ObjectKind.FILL);
    }
    return census.build();
  }

  @Test
  void run_manyPatchesForAllPages_addsOnePageBehindTheFirst() throws Exception {
    StampOptions options =
        new StampOptions(
            200,
            "basic",
            "handheld-spot",
            Optional.empty(),
            true,
            Optional.of(folder.resolve("strip.pdf")),
            List.of(),
            TIME);
    StampJob.Result result = run(job(2), survey(ofManyColors(), inked(40)), options);
    Strip strip = result.strips().strips().get(0);
    assertThat(strip.page()).isEqualTo(1);
    assertThat(strip.place().ownPage()).isTrue();
    assertThat(strip.place().proofPage()).isEqualTo(2);
    assertThat(strip.patches(PatchSet.JOB)).hasSizeGreaterThan(150);
    assertThat(result.findings()).extracting(Finding::code).contains("strip-on-own-page");
    try (PDDocument proof = Loader.loadPDF(folder.resolve("flyer.proof.pdf").toFile());
        PDDocument alone = Loader.loadPDF(folder.resolve("strip.pdf").toFile())) {
      assertThat(proof.getNumberOfPages()).isEqualTo(3);
      assertThat(proof.getPage(0).getCOSObject().containsKey(COSName.CONTENTS)).isFalse();
      assertThat(proof.getPage(1).getMediaBox().toString())
          .isEqualTo(proof.getPage(0).getMediaBox().toString());
      assertThat(alone.getNumberOfPages()).isEqualTo(1);
    }
  }

  @Test
  void run_jobWithPermissionsOnly_isOpenedAndSaysThatTheyAreGone() throws Exception {
    Path job = folder.resolve("flyer.pdf");
    try (PDDocument document = new PDDocument()) {
      document.addPage(new PDPage());
      AccessPermission permission = new AccessPermission();
      permission.setCanModify(false);
      StandardProtectionPolicy policy = new StandardProtectionPolicy("owner", "", permission);
      policy.setEncryptionKeyLength(128);
      document.protect(policy);
      document.save(job.toFile());
    }
    StampJob.Result result = run(job, survey(inked(0)), options());
    assertThat(result.findings()).extracting(Finding::code).contains("protection-removed");
    try (PDDocument proof = Loader.loadPDF(folder.resolve("flyer.proof.pdf").toFile())) {
      assertThat(proof.isEncrypted()).isFalse();
    }
  }

  @Test
  void run_jobWithUnknownPassword_isRefused() throws Exception {
    Path job = folder.resolve("flyer.pdf");
    try (PDDocument document = new PDDocument()) {
      document.addPage(new PDPage());
      StandardProtectionPolicy policy =
          new StandardProtectionPolicy("owner", "user", new AccessPermission());
      policy.setEncryptionKeyLength(128);
      document.protect(policy);
      document.save(job.toFile());
    }
    assertThatThrownBy(() -> run(job, survey(inked(0)), options()))
        .isInstanceOf(InputException.class)
        .hasMessageContaining("password");
    assertThat(files()).containsExactly("flyer.pdf");
  }
}
