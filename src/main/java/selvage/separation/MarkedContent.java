package selvage.separation;

import java.util.List;
import org.apache.pdfbox.cos.COSBase;
import org.apache.pdfbox.cos.COSDictionary;
import org.apache.pdfbox.cos.COSName;

/**
 * Takes the operators of marked content, and knows whether hidden optional content is being read.
 */
final class MarkedContent {
  private final PageScope scope;
  private int depth;
  private int hidden;

  MarkedContent(PageScope scope) {
    this.scope = scope;
  }

  /** Takes an operator; says whether it is one of these. */
  boolean take(String name, List<COSBase> operands, COSDictionary resources) {
    switch (name) {
      case "BMC" -> begin(null);
      case "BDC" -> {
        boolean optional =
            operands.size() > 1
                && operands.get(0) instanceof COSName tag
                && tag.getName().equals("OC");
        begin(optional ? properties(operands.get(1), resources) : null);
      }
      case "EMC" -> end();
      default -> {
        return false;
      }
    }
    return true;
  }

  /** Whether what is painted now belongs to hidden optional content. */
  boolean isHidden() {
    return hidden > 0;
  }

  private COSDictionary properties(COSBase operand, COSDictionary resources) {
    if (operand instanceof COSDictionary dictionary) {
      return dictionary;
    }
    if (operand instanceof COSName name) {
      Place.Resource named = Place.Resource.of(resources, COSName.PROPERTIES, name);
      if (named.object() instanceof COSDictionary dictionary) {
        return dictionary;
      }
      scope
          .findings()
          .warning(
              "layer-missing",
              scope.where()
                  + ": the "
                  + named.described("layer")
                  + " is not there; what lies on it is painted");
    }
    return null;
  }

  private void begin(COSDictionary optional) {
    depth++;
    if (hidden > 0 || scope.optionalContent().isHidden(optional)) {
      hidden++;
    }
  }

  private void end() {
    if (depth > 0) {
      depth--;
      if (hidden > 0) {
        hidden--;
      }
    }
  }

  /** How deep marked content lies, and how deep of it is hidden. */
  record Depth(int depth, int hidden) {}

  /** The depths before a form, which must not disturb those of its caller. */
  Depth save() {
    return new Depth(depth, hidden);
  }

  void restore(Depth saved) {
    depth = saved.depth();
    hidden = saved.hidden();
  }
}
