package selvage.web;

/** A page of 105 × 148 mm in plain PDF. */
final class TinyPdf {
  private TinyPdf() {}

  /**
   * Writes a file.
   *
   * @param content of the page
   * @param resources entries of its resources
   * @param catalog further entries of the catalogue
   */
  static String of(String content, String resources, String catalog) {
    StringBuilder pdf = new StringBuilder("%PDF-1.4\n");
    String[] objects = {
      "<</Type/Catalog/Pages 2 0 R" + catalog + ">>",
      "<</Type/Pages/Kids[3 0 R]/Count 1>>",
      "<</Type/Page/Parent 2 0 R/MediaBox[0 0 298 420]/Contents 4 0 R/Resources<<"
          + resources
          + ">>>>",
      "<</Length " + content.length() + ">>stream\n" + content + "\nendstream"
    };
    int[] offsets = new int[objects.length];
    for (int i = 0; i < objects.length; i++) {
      offsets[i] = pdf.length();
      pdf.append(i + 1).append(" 0 obj").append(objects[i]).append("endobj\n");
    }
    int start = pdf.length();
    pdf.append("xref\n0 ").append(objects.length + 1).append("\n0000000000 65535 f \n");
    for (int offset : offsets) {
      pdf.append(String.format(java.util.Locale.ROOT, "%010d 00000 n \n", offset));
    }
    pdf.append("trailer<</Size ").append(objects.length + 1).append("/Root 1 0 R>>\nstartxref\n");
    return pdf.append(start).append("\n%%EOF\n").toString();
  }
}
