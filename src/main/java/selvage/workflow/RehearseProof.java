package selvage.workflow;

import java.io.IOException;
import java.nio.file.Files;
import java.nio.file.Path;
import java.util.ArrayList;
import java.util.LinkedHashSet;
import java.util.List;
import java.util.Objects;
import java.util.Optional;
import java.util.Set;
import java.util.TreeSet;
import selvage.color.ConditionChoice;
import selvage.color.CorrectionText;
import selvage.finding.Finding;
import selvage.finding.InputException;
import selvage.ink.Colorant;
import selvage.measurement.Drift;
import selvage.measurement.Rehearsal;
import selvage.measurement.SimulatedText;
import selvage.measurement.StripChoice;
import selvage.measurement.VirtualDevice;
import selvage.strip.Strip;
import selvage.strip.StripsFile;
import selvage.strip.StripsJson;

/**
 * Makes an invented measurement of a proof's strips, by a virtual proofing device that drifts.
 *
 * @param choice which strips; all without a wish
 * @param condition the name or file of the reference printing condition, where the strips file does
 *     not tell enough
 * @param drift how the device is off
 * @param correction what to print through
 */
public record RehearseProof(
    StripChoice choice, Optional<String> condition, Drift drift, Optional<Path> correction) {
  public RehearseProof {
    Objects.requireNonNull(choice, "choice");
    Objects.requireNonNull(condition, "condition");
    Objects.requireNonNull(drift, "drift");
    Objects.requireNonNull(correction, "correction");
  }

  /** Without a correction. */
  public RehearseProof(StripChoice choice, Optional<String> condition, Drift drift) {
    this(choice, condition, drift, Optional.empty());
  }

  /**
   * Prints and reads the strips of a proof, virtually, and writes the readings.
   *
   * @param strips the strips file that stamping wrote
   * @param target where the CGATS text goes
   * @throws InputException where the file can't be used, its printing condition is not to be had,
   *     or the target can't be written; nothing is written then
   */
  public Rehearsal run(Path strips, Path target) throws InputException, IOException {
    if (Files.exists(target) && Files.isSameFile(strips, target)) {
      throw InputException.of(
          target.toString(), "would overwrite the strips file; give the output another name");
    }
    Rehearsal rehearsal = rehearsal(strips);
    try (StagedFiles files = new StagedFiles()) {
      files.add(target, rehearsal.text());
      files.publish();
    }
    return rehearsal;
  }

  /**
   * Prints and reads the strips of a proof, virtually.
   *
   * @param strips the strips file that stamping wrote
   * @throws InputException where the file can't be used or its printing condition is not to be had
   */
  public Rehearsal rehearsal(Path strips) throws InputException {
    StripsFile file = StripsJson.read(strips);
    List<Strip> chosen = choice.candidates(strips.toString(), file);
    requireKnownInks(strips, file);
    List<Finding> findings = new ArrayList<>();
    VirtualDevice device = VirtualDevice.withoutDrift(drift.noise(), drift.seed());
    if (drift.moves() || correction.isPresent()) {
      ConditionChoice found = ProofCondition.of(strips, file, condition);
      findings.addAll(found.findings());
      device = VirtualDevice.of(found.condition(), file.strips(), drift);
      findings.addAll(device.findings());
      if (correction.isPresent()) {
        device = device.through(CorrectionText.read(correction.get()));
        findings.add(
            Finding.note("printed-through-correction", "printed through " + correction.get()));
      }
    }
    SimulatedText text = new SimulatedText(file, drift);
    for (Strip strip : chosen) {
      text.add(strip, device.read(strip));
    }
    return new Rehearsal(drift, text.text(), chosen, findings);
  }

  /** A misspelt ink would leave its drift out unnoticed. */
  private void requireKnownInks(Path strips, StripsFile file) throws InputException {
    Set<Colorant> known = new TreeSet<>(Colorant.PROCESS);
    for (Strip strip : file.strips()) {
      strip.patches().forEach(patch -> known.addAll(patch.mixture().units().keySet()));
    }
    Set<String> names = new LinkedHashSet<>();
    known.forEach(colorant -> names.add(colorant.name()));
    Set<String> wanted = new TreeSet<>(drift.tone().keySet());
    wanted.addAll(drift.density().keySet());
    wanted.addAll(drift.spots().keySet());
    for (String name : wanted) {
      if (!names.contains(name)) {
        throw InputException.of(
            strips.toString(),
            "no strip has the ink \""
                + name
                + "\", only "
                + String.join(", ", names)
                + "; name one of them");
      }
    }
  }
}
