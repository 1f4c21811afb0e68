/**
 * Doubt and refusal: a {@link selvage.finding.Finding} rides on a result that stands; an {@link
 * selvage.finding.InputException} says why there is no result. Imports nothing of the project.
 */
package selvage.finding;
