/**
 * A PDF page becomes true ink planes: which inks, at which tint, at every sample of the page. Works
 * in device space, one sample a pixel centre, without anti-aliasing. Colours are never taken
 * through RGB. PDFBox's types stay inside this package and {@code selvage.sheet}.
 */
package selvage.separation;
