package selvage.separation;

import java.io.IOException;
import java.util.List;
import org.apache.pdfbox.cos.COSBase;
import org.apache.pdfbox.cos.COSName;
import org.apache.pdfbox.pdmodel.graphics.state.PDGraphicsState;

/**
 * Takes the operators that choose colours, and holds a colour fast where content may not choose.
 */
final class ColorOperators {
  private final PageInterpreter page;
  private final PageScope scope;
  private CarriedColor locked;
  private boolean pending;

  ColorOperators(PageInterpreter page) {
    this.page = page;
    this.scope = page.scope();
  }

  /** Takes an operator; says whether it is one of these. */
  boolean take(String name, List<COSBase> operands) throws IOException {
    boolean stroking = Character.isUpperCase(name.charAt(0));
    switch (name) {
      case "g", "G" -> set(stroking, scope.spaces().gray(page.resourceDictionary()), operands);
      case "rg", "RG" -> set(stroking, scope.spaces().rgb(page.resourceDictionary()), operands);
      case "k", "K" -> set(stroking, scope.spaces().cmyk(page.resourceDictionary()), operands);
      case "cs", "CS" -> {
        if (operands.isEmpty()) {
          throw new IOException("no colour space is named");
        }
        setColor(
            stroking,
            CarriedColor.initial(scope.spaces().read(operands.get(0), page.resourceDictionary())));
      }
      case "sc", "SC", "scn", "SCN" -> {
        CarriedColor current = current(stroking);
        SourceSpace space =
            current == null ? scope.spaces().gray(page.resourceDictionary()) : current.space;
        set(stroking, space, operands);
      }
      default -> {
        return false;
      }
    }
    return true;
  }

  /** The colour in force. */
  CarriedColor current(boolean stroking) {
    PDGraphicsState state = page.getGraphicsState();
    return CarriedColor.of(stroking ? state.getStrokingColor() : state.getNonStrokingColor());
  }

  private void set(boolean stroking, SourceSpace space, List<COSBase> operands) throws IOException {
    COSBase pattern = null;
    int count = operands.size();
    if (count > 0 && operands.get(count - 1) instanceof COSName name) {
      Place.Resource named = Place.Resource.of(page.resourceDictionary(), COSName.PATTERN, name);
      pattern = named.object();
      if (pattern == null) {
        throw new IOException("the " + named.described("pattern") + " is not there");
      }
      count--;
    }
    if (pattern == null && space instanceof PatternSpace) {
      throw new IOException("a colour in a Pattern space names no pattern");
    }
    float[] components = new float[Math.max(count, space.components())];
    if (pattern == null && count < space.components()) {
      throw new IOException(
          "a colour of " + count + " components where " + space.components() + " are needed");
    }
    for (int i = 0; i < count; i++) {
      components[i] = (float) Operands.number(operands, i);
    }
    setColor(stroking, new CarriedColor(space, components, pattern));
  }

  private void setColor(boolean stroking, CarriedColor color) {
    if (!isAllowed()) {
      return;
    }
    PDGraphicsState state = page.getGraphicsState();
    if (stroking) {
      state.setStrokingColorSpace(color);
      state.setStrokingColor(color.toPdColor());
    } else {
      state.setNonStrokingColorSpace(color);
      state.setNonStrokingColor(color.toPdColor());
    }
  }

  /**
   * Holds one colour fast for all that follows, as for the cell of an uncoloured pattern.
   *
   * @param color null to let the content choose
   */
  void lock(CarriedColor color) {
    locked = color;
    pending = color != null;
  }

  /** Whether the content may choose colours; not in an uncoloured glyph or pattern cell. */
  boolean isAllowed() {
    return locked == null && page.isShouldProcessColorOperators();
  }

  /** Sets the colour that is held fast, once the content's own graphics state has begun. */
  void applyLocked() {
    if (pending) {
      pending = false;
      PDGraphicsState state = page.getGraphicsState();
      state.setStrokingColor(locked.toPdColor());
      state.setNonStrokingColor(locked.toPdColor());
    }
  }
}
