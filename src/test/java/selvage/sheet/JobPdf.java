package selvage.sheet;

import java.io.ByteArrayOutputStream;
import java.nio.charset.StandardCharsets;
import java.util.ArrayList;
import java.util.List;
import java.util.Locale;

/** Hand-built jobs: a page is a string of its dictionary's entries and a string of content. */
final class JobPdf {
  /** Two spots, one with a CMYK alternate, one with a Lab one. */
  static final String SPOTS =
      "/Resources << /ColorSpace <<"
          + " /Red [/Separation /Dune#20Red /DeviceCMYK << /FunctionType 2 /Domain [0 1]"
          + " /C0 [0 0 0 0] /C1 [0.1 0.9 0.8 0.05] /N 1 >>]"
          + " /Teal [/Separation /Teal [/Lab << /WhitePoint [0.9642 1 0.8249]"
          + " /Range [-128 127 -128 127] >>] << /FunctionType 2 /Domain [0 1] /C0 [100 0 0]"
          + " /C1 [52 -38 -9] /N 1 >>] >> >>";

  private final List<String> objects = new ArrayList<>();
  private final List<Integer> pages = new ArrayList<>();
  private String catalogEntries = "";

  JobPdf() {
    objects.add("");
    objects.add("");
  }

  /** Adds an object and returns its number. */
  int object(String body) {
    objects.add(body);
    return objects.size();
  }

  int stream(String entries, String data) {
    return object(
        "<< " + entries + " /Length " + data.length() + " >>\nstream\n" + data + "\nendstream");
  }

  JobPdf catalog(String entries) {
    catalogEntries += " " + entries;
    return this;
  }

  /** Adds a page. */
  JobPdf page(String entries, String content) {
    int stream = stream("", content);
    pages.add(
        object("<< /Type /Page /Parent 2 0 R /Contents " + stream + " 0 R " + entries + " >>"));
    return this;
  }

  /** Lets the last page stand once more in the page tree, the same object. */
  JobPdf pageAgain() {
    pages.add(pages.get(pages.size() - 1));
    return this;
  }

  byte[] bytes() {
    objects.set(0, "<< /Type /Catalog /Pages 2 0 R" + catalogEntries + " >>");
    StringBuilder kids = new StringBuilder();
    pages.forEach(page -> kids.append(page).append(" 0 R "));
    objects.set(1, "<< /Type /Pages /Count " + pages.size() + " /Kids [" + kids + "] >>");
    ByteArrayOutputStream out = new ByteArrayOutputStream();
    out.writeBytes(latin1("%PDF-1.6\n%\u00e2\u00e3\u00cf\u00d3\n"));
    StringBuilder table = new StringBuilder();
    for (int i = 0; i < objects.size(); i++) {
      table.append(String.format(Locale.ROOT, "%010d 00000 n \n", out.size()));
      out.writeBytes(latin1((i + 1) + " 0 obj\n" + objects.get(i) + "\nendobj\n"));
    }
    int start = out.size();
    int size = objects.size() + 1;
    out.writeBytes(
        latin1(
            "xref\n0 "
                + size
                + "\n0000000000 65535 f \n"
                + table
                + "trailer\n<< /Size "
                + size
                + " /Root 1 0 R >>\nstartxref\n"
                + start
                + "\n%%EOF\n"));
    return out.toByteArray();
  }

  private static byte[] latin1(String text) {
    return text.getBytes(StandardCharsets.ISO_8859_1);
  }
}
