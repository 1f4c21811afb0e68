/**
 * Jobs on the operator's desk: a job as it came, its pages as they will print, the set of patches
 * that an operator makes of the automatic one, every change with who made it and when, and the
 * approval that has exactly this set stamped. Takes files and names; gives pictures as PNG, maps as
 * bytes, sets as {@link selvage.strip.JobSet}. It knows nothing of HTTP.
 */
package selvage.review;
