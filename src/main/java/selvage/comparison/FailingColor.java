package selvage.comparison;

import selvage.ink.InkMixture;
import selvage.strip.PatchSet;

/**
 * What became of one ink mixture over all proofs.
 *
 * @param set job or standard
 * @param mixture the inks
 * @param over how often it was over the tightest limit on it by itself, of how often it had one
 * @param meanDe00 over all its readings
 * @param direction mean of reading minus aim
 * @param readings how many
 */
public record FailingColor(
    PatchSet set,
    InkMixture mixture,
    Proportion over,
    double meanDe00,
    LabMean direction,
    int readings) {}
