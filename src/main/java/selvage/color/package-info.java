/**
 * Colour as numbers. Lab is absolute, D50, 2°, unless a method says media-relative.
 *
 * <ul>
 *   <li>{@link selvage.color.ColorDifference} compares two colours; {@link
 *       selvage.color.De00Kernel} does so in bulk.
 *   <li>{@link selvage.color.ReferenceConditions} finds a reference printing condition: built in,
 *       an ICC profile, characterization data, or a job's output intent.
 *   <li>{@link selvage.color.AimModel} gives the aim for any ink mixture; {@link
 *       selvage.color.SpotLibrary} reads the user's spot inks.
 *   <li>{@link selvage.color.SourceColor} and {@link selvage.color.ProcessSeparation} bring colours
 *       that are not given in inks to process tints.
 * </ul>
 *
 * <p>Nothing here reads a page or a measurement of a proof.
 */
package selvage.color;
