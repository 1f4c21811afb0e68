/**
 * Finished results as text and JSON. Takes results, decides nothing, computes nothing but the
 * rounding.
 */
package selvage.report;
