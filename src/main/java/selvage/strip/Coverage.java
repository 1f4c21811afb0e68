package selvage.strip;

/**
 * How well patches stand for the inked area of a page: over all inked samples of the counted area,
 * the CIEDE2000 distance of each sample's aim to the nearest patch's aim.
 *
 * @param within2Percent share of the inked area within ΔE00 2 of a job patch, percent
 * @param within3Percent the same within ΔE00 3
 * @param meanDe00 mean distance to the nearest job patch, weighted by area
 * @param standardWithin3Percent share of the inked area within ΔE00 3 of a standard patch
 */
public record Coverage(
    double within2Percent, double within3Percent, double meanDe00, double standardWithin3Percent) {}
