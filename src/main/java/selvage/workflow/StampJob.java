package selvage.workflow;

import com.fasterxml.jackson.core.JsonGenerator;
import java.io.IOException;
import java.nio.file.Files;
import java.nio.file.Path;
import java.util.ArrayList;
import java.util.List;
import java.util.Locale;
import selvage.finding.Finding;
import selvage.finding.InputException;
import selvage.sheet.ProofDocument;
import selvage.sheet.StripsAlone;
import selvage.strip.Strip;
import selvage.strip.StripLabel;
import selvage.strip.StripText;
import selvage.strip.StripsFile;
import selvage.strip.StripsJson;
import selvage.survey.JobSurvey;

/**
 * Stamps a surveyed job: chooses patches, lays out a strip a page, puts it on the sheet or on a
 * page of its own, and writes the proof with its strip files.
 */
public final class StampJob {
  /**
   * What came of it.
   *
   * @param strips the record that was written beside the proof
   * @param findings doubts, those of the survey first
   * @param written the files, the proof first
   */
  public record Result(StripsFile strips, List<Finding> findings, List<Path> written) {
    public Result {
      findings = List.copyOf(findings);
      written = List.copyOf(written);
    }

    /** Writes the record as JSON, findings with it: what lies beside the proof. */
    public void writeTo(JsonGenerator json) throws IOException {
      StripsJson.write(strips, findings, json);
    }
  }

  private final Path job;
  private final JobSurvey survey;
  private final StampOptions options;
  private final StripMaker maker;
  private final List<Finding> findings = new ArrayList<>();

  private StampJob(Path job, JobSurvey survey, StampOptions options) throws InputException {
    this.job = job;
    this.survey = survey;
    this.options = options;
    this.maker = new StripMaker(job, survey, options);
    findings.addAll(maker.findings());
  }

  /**
   * Stamps and writes {@code PROOF.pdf}, {@code PROOF.strips.json} and {@code
   * PROOF.strip-pNNN.txt}.
   *
   * @param survey of this very file
   * @param proof the stamped PDF's name
   * @throws InputException where the job, an option's file or the target can't be used; nothing is
   *     written then
   */
  public static Result run(Path job, JobSurvey survey, Path proof, StampOptions options)
      throws InputException, IOException {
    checkTarget(job, proof);
    if (options.separate().isPresent()) {
      checkTarget(job, options.separate().get());
      checkTarget(proof, options.separate().get());
    }
    return new StampJob(job, survey, options).stamp(proof);
  }

  private static void checkTarget(Path job, Path target) throws InputException, IOException {
    boolean same = job.toAbsolutePath().normalize().equals(target.toAbsolutePath().normalize());
    if (same || (Files.exists(target) && Files.exists(job) && Files.isSameFile(job, target))) {
      throw InputException.of(
          target.toString(), "would overwrite " + job + "; give the output another name");
    }
  }

  private Result stamp(Path proof) throws InputException, IOException {
    String stem = stem(proof);
    List<Path> written = new ArrayList<>();
    try (StagedFiles files = new StagedFiles();
        ProofDocument document = ProofDocument.open(job)) {
      findings.addAll(document.findings());
      List<StripMaker.Made> made = new ArrayList<>();
      for (StripShare share : maker.shares()) {
        made.add(maker.make(document, share));
        findings.addAll(made.get(made.size() - 1).findings());
      }
      List<Strip> strips = made.stream().map(StripMaker.Made::strip).toList();
      if (options.separate().isPresent()) {
        writeAlone(files, options.separate().get(), made);
        written.add(options.separate().get());
      }
      StripsFile record =
          new StripsFile(
              survey.job(),
              String.valueOf(proof.getFileName()),
              survey.condition().name(),
              survey.condition().origin().word(),
              strips,
              labelItems());
      for (Strip strip : strips) {
        Path text =
            proof.resolveSibling(
                String.format(Locale.ROOT, "%s.strip-p%03d.txt", stem, strip.page()));
        files.add(text, StripText.write(survey.job(), survey.condition().name(), strip));
        written.add(text);
      }
      Path json = proof.resolveSibling(stem + ".strips.json");
      files.add(json, StripsJson.write(record, findings));
      written.add(0, json);
      files.add(proof, out -> document.write(out, options.time(), fileSeed()));
      written.add(0, proof);
      files.publish();
      return new Result(record, findings, written);
    }
  }

  private List<StripLabel.Item> labelItems() {
    List<StripLabel.Item> items = new ArrayList<>(options.labelItems());
    items.add(new StripLabel.Item("Stamped", maker.labelTime()));
    return items;
  }

  /** The proof's name without {@code .pdf}. */
  private static String stem(Path proof) {
    String name = String.valueOf(proof.getFileName());
    boolean pdf = name.toLowerCase(Locale.ROOT).endsWith(".pdf") && name.length() > 4;
    return pdf ? name.substring(0, name.length() - 4) : name;
  }

  private long fileSeed() {
    return Long.parseUnsignedLong(survey.job().sha256().substring(0, 16), 16);
  }

  private void writeAlone(StagedFiles files, Path target, List<StripMaker.Made> made)
      throws InputException, IOException {
    try (StripsAlone alone = StripsAlone.of(job)) {
      for (StripMaker.Made strip : made) {
        alone.add(strip.stamped().layout(), strip.share().spots());
      }
      files.add(target, out -> alone.write(out, options.time(), fileSeed()));
    }
  }
}
