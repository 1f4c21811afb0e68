/**
 * The strip on the sheet: {@link selvage.sheet.ProofDocument} opens a customer's PDF, finds or
 * makes room outside the bleed, paints a {@link selvage.strip.StripLayout} in the job's own inks,
 * and writes the proof. What lies inside the bleed box is never touched. PDFBox's types stay
 * inside.
 */
package selvage.sheet;
