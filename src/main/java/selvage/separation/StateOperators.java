package selvage.separation;

import java.io.IOException;
import java.util.List;
import org.apache.pdfbox.cos.COSArray;
import org.apache.pdfbox.cos.COSBase;
import org.apache.pdfbox.pdmodel.graphics.state.PDGraphicsState;
import org.apache.pdfbox.util.Matrix;

/** Takes the operators of the general graphics state. */
final class StateOperators {
  private static final int MOST_SAVED_STATES = 4_000;
  private static final int MOST_DASHES = 1_000;

  private final PageInterpreter page;
  private final PageScope scope;
  private int unsavedStates;

  StateOperators(PageInterpreter page) {
    this.page = page;
    this.scope = page.scope();
  }

  /** Takes an operator; says whether it is one of these. */
  boolean take(String name, List<COSBase> operands) throws IOException {
    PDGraphicsState state = page.getGraphicsState();
    switch (name) {
      case "q" -> {
        if (page.getGraphicsStackSize() <= MOST_SAVED_STATES) {
          page.saveGraphicsState();
        } else if (unsavedStates++ == 0) {
          scope
              .findings()
              .warning(
                  "too-many-q",
                  scope.where()
                      + ": more than "
                      + MOST_SAVED_STATES
                      + " graphics states are saved; further ones are not");
        }
      }
      case "Q" -> {
        if (page.getGraphicsStackSize() > MOST_SAVED_STATES && unsavedStates > 0) {
          unsavedStates--;
        } else if (page.getGraphicsStackSize() > 1) {
          page.restoreGraphicsState();
        } else {
          scope.findings().note("unbalanced-q", scope.where() + ": Q without q");
        }
      }
      case "cm" ->
          state
              .getCurrentTransformationMatrix()
              .concatenate(
                  new Matrix(
                      (float) Operands.number(operands, 0),
                      (float) Operands.number(operands, 1),
                      (float) Operands.number(operands, 2),
                      (float) Operands.number(operands, 3),
                      (float) Operands.number(operands, 4),
                      (float) Operands.number(operands, 5)));
      case "w" -> state.setLineWidth((float) Operands.number(operands, 0));
      case "J" -> state.setLineCap(choice(Operands.number(operands, 0)));
      case "j" -> state.setLineJoin(choice(Operands.number(operands, 0)));
      case "M" -> state.setMiterLimit((float) Operands.number(operands, 0));
      case "d" -> {
        if (operands.isEmpty() || !(operands.get(0) instanceof COSArray dashes)) {
          throw new IOException("operand 1 is missing or no array");
        }
        if (dashes.size() > MOST_DASHES) {
          throw new IOException("a dash pattern of " + dashes.size() + " lengths");
        }
        state.setLineDashPattern(
            DashPattern.pack(dashes, operands.size() > 1 ? Operands.number(operands, 1) : 0));
      }
      case "i", "ri", "BX", "EX", "MP", "DP", "d0", "d1" -> {
        // Flatness, intent and compatibility leave the ink as it is; d1 is read by the engine.
      }
      default -> {
        return false;
      }
    }
    return true;
  }

  private static int choice(double value) {
    return value == 1 || value == 2 ? (int) value : 0;
  }
}
