package selvage.strip;

/**
 * What a job set is worth for one of the pages that it was chosen for.
 *
 * @param page counted from 1
 * @param inkedSharePercent the page's share of the inked area of all these pages
 * @param within3Percent share of the page's own inked area within ΔE00 3 of a job patch
 */
public record PageShare(int page, double inkedSharePercent, double within3Percent) {}
