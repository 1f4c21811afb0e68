/**
 * The XML of CxF3 (ISO 17972-1), and nothing of its meaning: {@link selvage.cxf.CxfReader} makes
 * objects with colour values, device values and tags out of bytes. What an object stands for is the
 * caller's business. XML from outside is read without document types, entities or unbounded depth.
 */
package selvage.cxf;
