/**
 * Colour as numbers: CIELAB and XYZ, colour differences, ICC profiles, reference printing
 * conditions, and the aim for any ink mixture. Lab is absolute, D50, 2°. Nothing here reads a page
 * or a measurement.
 */
package selvage.color;
