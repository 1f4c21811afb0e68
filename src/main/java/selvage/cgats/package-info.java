/**
 * The text format of CGATS.17 and ISO 28178, and nothing of its meaning: {@link
 * selvage.cgats.CgatsReader} makes tables of strings with line numbers out of bytes, {@link
 * selvage.cgats.CgatsWriter} makes text. What a column stands for is the caller's business.
 */
package selvage.cgats;
