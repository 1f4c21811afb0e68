/**
 * What the job strip said against what the standard strip said, over a history of scored strips:
 * verdicts side by side, paired colour differences, the colours that fail, and the trend of each
 * proofing system. {@link selvage.comparison.ComparisonBuilder} takes scored strips one by one and
 * gives a {@link selvage.comparison.Comparison}. Colour differences are ΔE00 unless said otherwise,
 * shares are 0 to 1, intervals are at 95 %. Nothing is written or drawn here.
 */
package selvage.comparison;
