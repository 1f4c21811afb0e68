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
import org.apache.pdfbox.pdmodel.graphics.state.PDExtendedGraphicsState;
import org.apache.pdfbox.pdmodel.graphics.state.PDGraphicsState;

/**
 * The operator gs, with two rules of ISO 32000-1, table 58, that PDFBox leaves out: OP without op
 * speaks for fills as well, and a dash pattern's phase may be any number.
 */
final class StateParameters extends SetGraphicsStateParameters {
  StateParameters(PDFStreamEngine engine) {
    super(engine);
  }

  @Override
  public void process(Operator operator, List<COSBase> operands) throws IOException {
    super.process(operator, operands);
    PDFStreamEngine engine = getContext();
    PDExtendedGraphicsState parameters =
        operands.get(0) instanceof COSName name ? engine.getResources().getExtGState(name) : null;
    if (parameters == null) {
      return;
    }
    COSDictionary dictionary = parameters.getCOSObject();
    PDGraphicsState state = engine.getGraphicsState();
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
