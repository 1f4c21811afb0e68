/**
 * From readings to a verdict: {@link selvage.score.ToleranceSet} is data, {@link
 * selvage.score.Scoring} holds a matched strip against it and makes a {@link
 * selvage.score.ProofScore}. Says what was evaluated with which tolerance set, never that a proof
 * conforms to a standard.
 */
package selvage.score;
