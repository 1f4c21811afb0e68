package selvage.separation;

import java.io.IOException;
import java.util.ArrayList;
import java.util.HashMap;
import java.util.IdentityHashMap;
import java.util.List;
import java.util.Map;
import java.util.Set;
import org.apache.pdfbox.cos.COSArray;
import org.apache.pdfbox.cos.COSDictionary;
import org.apache.pdfbox.cos.COSName;
import org.apache.pdfbox.cos.COSStream;
import org.apache.pdfbox.pdmodel.PDDocument;
import selvage.color.SpotInk;
import selvage.color.SpotLibrary;
import selvage.finding.Finding;
import selvage.finding.InputException;
import selvage.finding.Severity;

/**
 * The colours of spot inks that a job carries itself: CxF/X-4 streams under the inks' names in the
 * {@code SpectralData} of its output intents (ISO 32000-2, 14.11.5, table 401 [iso32000-2]). Those
 * of a page go before the document's.
 */
final class IntentSpots {
  private static final COSName SPECTRAL_DATA = COSName.getPDFName("SpectralData");
  private static final int MOST_BYTES = 16 << 20;

  private final PDDocument document;
  private final IdentityHashMap<COSStream, SpotLibrary> known = new IdentityHashMap<>();

  IntentSpots(PDDocument document) {
    this.document = document;
  }

  /**
   * Looks for inks.
   *
   * @param page counted from 1
   * @param dictionary of that page
   * @param names of the inks that are asked for
   */
  SpotLibrary of(int page, COSDictionary dictionary, Set<String> names) {
    Map<String, SpotInk> inks = new HashMap<>();
    List<Finding> findings = new ArrayList<>();
    for (String name : names) {
      COSStream stream = stream(dictionary.getCOSArray(COSName.OUTPUT_INTENTS), name);
      if (stream == null) {
        stream =
            stream(
                document.getDocumentCatalog().getCOSObject().getCOSArray(COSName.OUTPUT_INTENTS),
                name);
      }
      if (stream != null) {
        take(page, name, stream, inks, findings);
      }
    }
    return new SpotLibrary(inks, findings);
  }

  private static COSStream stream(COSArray intents, String name) {
    for (int i = 0; intents != null && i < intents.size(); i++) {
      if (intents.getObject(i) instanceof COSDictionary intent) {
        COSDictionary data = intent.getCOSDictionary(SPECTRAL_DATA);
        if (data != null
            && data.getDictionaryObject(COSName.getPDFName(name)) instanceof COSStream stream) {
          return stream;
        }
      }
    }
    return null;
  }

  private void take(
      int page, String name, COSStream stream, Map<String, SpotInk> inks, List<Finding> findings) {
    String where =
        "page "
            + page
            + ": "
            + Place.numbered("the output intent's colour data of \"" + name + "\"", stream);
    String fault;
    try {
      SpotLibrary library = known.get(stream);
      if (library == null) {
        library = read(stream);
        known.put(stream, library);
      }
      SpotInk ink = library.inks().get(name);
      if (ink != null) {
        inks.put(name, ink);
        findings.add(
            Finding.note(
                "spot-color-from-job",
                where
                    + " (CxF) is its aim, "
                    + ink.ramp().size()
                    + (ink.ramp().size() == 1 ? " tint" : " tints")
                    + "; a library given with --spots goes before it"));
        return;
      }
      fault = "expected the ink's colour at 100 %, found " + library.inks().keySet();
      for (Finding finding : library.findings()) {
        fault = finding.severity() == Severity.WARNING ? finding.text() : fault;
      }
    } catch (InputException | IOException | RuntimeException e) {
      fault = Reason.of(e);
    }
    findings.add(
        Finding.warning(
            "spot-color-not-read",
            where + " can't be used (" + fault + "); its alternate colour was taken"));
  }

  private static SpotLibrary read(COSStream stream) throws IOException, InputException {
    byte[] bytes = StreamBytes.first(stream, MOST_BYTES + 1L);
    if (bytes.length > MOST_BYTES) {
      throw new IOException("more than " + (MOST_BYTES >> 20) + " MiB");
    }
    return SpotLibrary.ofCxf("CxF", bytes);
  }
}
