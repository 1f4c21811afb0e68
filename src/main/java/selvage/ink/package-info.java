/**
 * The vocabulary of ink: {@link selvage.ink.Colorant}, {@link selvage.ink.Tint}, {@link
 * selvage.ink.InkMixture}. Plain values; nothing here knows a PDF, a colour space or a page.
 */
package selvage.ink;
