package selvage.separation;

import java.io.IOException;
import java.util.List;
import org.apache.pdfbox.contentstream.PDFStreamEngine;
import org.apache.pdfbox.contentstream.operator.Operator;
import org.apache.pdfbox.contentstream.operator.state.SetGraphicsStateParameters;
import org.apache.pdfbox.cos.COSArray;
import org.apache.pdfbox.cos.COSBase;
import org.apache.pdfbox.cos.COSDictionary;
import org.apache.pdfbox.cos.COSName;
import org.apache.pdfbox.cos.COSNumber;
import org.apache.pdfbox.pdmodel.PDResources;
import org.apache.pdfbox.pdmodel.graphics.state.PDGraphicsState;

/**
 * The operator gs, with rules of ISO 32000-1, table 58, that PDFBox leaves out: OP without op
 * speaks for fills as well, and a dash pattern's phase may be any number. What it skips becomes a
 * finding.
 */
final class StateParameters extends SetGraphicsStateParameters {
  private final PageScope scope;
  private final StateDoubts doubts;

  StateParameters(PDFStreamEngine engine, PageScope scope) {
    super(engine);
    this.scope = scope;
    this.doubts = new StateDoubts(scope.findings(), scope.place());
  }

  @Override
  public void process(Operator operator, List<COSBase> operands) throws IOException {
    if (operands.isEmpty() || !(operands.get(0) instanceof COSName name)) {
      throw new IOException("operand 1 is missing or no name");
    }
    PDResources resources = getContext().getResources();
    Place.Resource named =
        Place.Resource.of(
            resources == null ? null : resources.getCOSObject(), COSName.EXT_G_STATE, name);
    String place = named.described("graphics state");
    if (!(named.object() instanceof COSDictionary dictionary)) {
      throw new IOException("the " + place + " is not there");
    }
    scope.enter(place);
    try {
      doubts.note(dictionary);
      super.process(operator, operands);
      complete(dictionary);
    } catch (IOException | RuntimeException e) {
      throw new IOException("the " + place + " can't be read: " + Reason.of(e), e);
    } finally {
      scope.leave();
    }
  }

  private void setTransfer(COSBase transfer) {
    try {
      Transfer.of(transfer);
      getContext().getGraphicsState().setTransfer(transfer);
    } catch (IOException | RuntimeException e) {
      scope
          .findings()
          .warning(
              "transfer-skipped",
              scope.where() + ": its transfer functions were left out: " + Reason.of(e));
      getContext().getGraphicsState().setTransfer(null);
    }
  }

  private void complete(COSDictionary dictionary) {
    PDGraphicsState state = getContext().getGraphicsState();
    COSBase transfer = dictionary.getDictionaryObject(COSName.getPDFName("TR2"));
    if (transfer == null) {
      transfer = dictionary.getDictionaryObject(COSName.TR);
    }
    if (transfer != null) {
      setTransfer(transfer);
    }
    if (dictionary.containsKey(COSName.OP) && !dictionary.containsKey(COSName.OP_NS)) {
      state.setNonStrokingOverprint(dictionary.getBoolean(COSName.OP, false));
    }
    COSArray dashes = dictionary.getCOSArray(COSName.D);
    if (dashes != null && dashes.size() > 0 && dashes.getObject(0) instanceof COSArray lengths) {
      boolean phased = dashes.size() > 1 && dashes.getObject(1) instanceof COSNumber;
      double phase = phased ? ((COSNumber) dashes.getObject(1)).floatValue() : 0;
      state.setLineDashPattern(DashPattern.pack(lengths, phase));
    }
  }
}
