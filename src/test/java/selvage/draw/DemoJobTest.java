package selvage.draw;

import static org.assertj.core.api.Assertions.assertThat;

import java.io.IOException;
import java.io.InputStream;
import java.util.HashSet;
import java.util.HexFormat;
import java.util.Set;
import java.util.TreeMap;
import org.apache.pdfbox.Loader;
import org.apache.pdfbox.cos.COSArray;
import org.apache.pdfbox.cos.COSBase;
import org.apache.pdfbox.cos.COSDictionary;
import org.apache.pdfbox.cos.COSName;
import org.apache.pdfbox.cos.COSObject;
import org.apache.pdfbox.cos.COSStream;
import org.apache.pdfbox.cos.COSString;
import org.apache.pdfbox.pdmodel.PDDocument;
import org.junit.jupiter.api.Test;

/** The demo job in {@code testdata/} is what the code beside it draws. */
class DemoJobTest {
  /** Compared with its streams unpacked, because deflaters differ from machine to machine. */
  @Test
  void draw_again_givesTheCommittedJob() throws IOException {
    try (InputStream committed = DemoJobTest.class.getResourceAsStream("/demo/demo-job.pdf")) {
      assertThat(unpacked(DemoJob.draw())).isEqualTo(unpacked(committed.readAllBytes()));
    }
  }

  private static String unpacked(byte[] pdf) throws IOException {
    try (PDDocument document = Loader.loadPDF(pdf)) {
      StringBuilder text = new StringBuilder();
      write(document.getDocument().getTrailer(), text, new HashSet<>());
      return text.toString();
    }
  }

  private static void write(COSBase item, StringBuilder text, Set<COSBase> seen)
      throws IOException {
    if (item instanceof COSObject reference) {
      text.append(reference.getKey());
      write(reference.getObject(), text, seen);
    } else if (item instanceof COSDictionary dictionary) {
      if (seen.add(dictionary)) {
        writeEntries(dictionary, text, seen);
      }
    } else if (item instanceof COSArray array) {
      text.append('[');
      for (COSBase element : array) {
        write(element, text, seen);
        text.append(' ');
      }
      text.append("]\n");
    } else if (item instanceof COSString string) {
      text.append(string.toHexString());
    } else {
      text.append(item);
    }
  }

  private static void writeEntries(COSDictionary dictionary, StringBuilder text, Set<COSBase> seen)
      throws IOException {
    TreeMap<COSName, COSBase> entries = new TreeMap<>();
    dictionary.forEach((key, value) -> entries.put(key, value));
    entries.remove(COSName.LENGTH);
    entries.remove(COSName.DOC_CHECKSUM);
    text.append("<<");
    for (var entry : entries.entrySet()) {
      text.append(entry.getKey().getName()).append(' ');
      write(entry.getValue(), text, seen);
      text.append('\n');
    }
    text.append(">>");
    if (dictionary instanceof COSStream stream) {
      boolean photograph = COSName.DCT_DECODE.equals(stream.getFilters());
      try (InputStream data =
          photograph ? stream.createRawInputStream() : stream.createInputStream()) {
        text.append(HexFormat.of().formatHex(data.readAllBytes())).append('\n');
      }
    }
  }
}
