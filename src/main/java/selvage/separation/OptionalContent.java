package selvage.separation;

import java.util.HashSet;
import java.util.IdentityHashMap;
import java.util.Set;
import org.apache.pdfbox.cos.COSArray;
import org.apache.pdfbox.cos.COSBase;
import org.apache.pdfbox.cos.COSDictionary;
import org.apache.pdfbox.cos.COSName;

/**
 * Which optional content is printed: the default configuration, then what its usage application
 * dictionaries say of printing (ISO 32000-2, 8.11).
 */
final class OptionalContent {
  private static final COSName AS = COSName.getPDFName("AS");
  private static final COSName EVENT = COSName.getPDFName("Event");
  private static final COSName USAGE = COSName.getPDFName("Usage");
  private static final COSName PRINT_STATE = COSName.getPDFName("PrintState");
  private static final int MOST_DEPTH = 16;

  /** Expressions that one question may lead through; they may refer to one another without end. */
  private static final int MOST_STEPS = 20_000;

  private final IdentityHashMap<COSDictionary, Boolean> hidden = new IdentityHashMap<>();
  private int steps;

  OptionalContent(COSDictionary catalog) {
    COSDictionary properties = catalog.getCOSDictionary(COSName.OCPROPERTIES);
    COSDictionary configuration =
        properties == null ? null : properties.getCOSDictionary(COSName.D);
    if (configuration == null) {
      return;
    }
    if ("OFF".equals(configuration.getNameAsString(COSName.BASE_STATE))) {
      mark(properties.getCOSArray(COSName.OCGS), true);
    }
    mark(configuration.getCOSArray(COSName.ON), false);
    mark(configuration.getCOSArray(COSName.OFF), true);
    COSArray applications = configuration.getCOSArray(AS);
    for (int i = 0; applications != null && i < applications.size(); i++) {
      if (applications.getObject(i) instanceof COSDictionary application
          && "Print".equals(application.getNameAsString(EVENT))) {
        applyPrintUsage(application.getCOSArray(COSName.OCGS));
      }
    }
  }

  private void mark(COSArray groups, boolean off) {
    for (int i = 0; groups != null && i < groups.size(); i++) {
      if (groups.getObject(i) instanceof COSDictionary group) {
        hidden.put(group, off);
      }
    }
  }

  private void applyPrintUsage(COSArray groups) {
    for (int i = 0; groups != null && i < groups.size(); i++) {
      if (groups.getObject(i) instanceof COSDictionary group) {
        COSDictionary usage = group.getCOSDictionary(USAGE);
        COSDictionary print =
            usage == null ? null : usage.getCOSDictionary(COSName.getPDFName("Print"));
        String state = print == null ? null : print.getNameAsString(PRINT_STATE);
        if (state != null) {
          hidden.put(group, state.equals("OFF"));
        }
      }
    }
  }

  /**
   * Whether content of a group or a membership dictionary is left out.
   *
   * @param content an optional content group or membership dictionary; may be null
   */
  boolean isHidden(COSDictionary content) {
    steps = 0;
    return isHidden(content, 0);
  }

  private boolean isHidden(COSDictionary content, int depth) {
    if (content == null || depth > MOST_DEPTH || ++steps > MOST_STEPS) {
      return false;
    }
    if (!"OCMD".equals(content.getNameAsString(COSName.TYPE))) {
      return hidden.getOrDefault(content, false);
    }
    COSArray expression = content.getCOSArray(COSName.VE);
    if (expression != null && expression.size() > 0) {
      return !isVisible(expression, depth + 1);
    }
    Set<COSDictionary> groups = new HashSet<>();
    COSBase stated = content.getDictionaryObject(COSName.OCGS);
    if (stated instanceof COSDictionary group) {
      groups.add(group);
    } else if (stated instanceof COSArray array) {
      for (int i = 0; i < array.size(); i++) {
        if (array.getObject(i) instanceof COSDictionary group) {
          groups.add(group);
        }
      }
    }
    if (groups.isEmpty()) {
      return false;
    }
    int off = 0;
    for (COSDictionary group : groups) {
      off += isHidden(group, depth + 1) ? 1 : 0;
    }
    String policy = content.getNameAsString(COSName.P);
    return switch (policy == null ? "AnyOn" : policy) {
      case "AllOn" -> off > 0;
      case "AnyOff" -> off == 0;
      case "AllOff" -> off < groups.size();
      default -> off == groups.size();
    };
  }

  private boolean isVisible(COSBase base, int depth) {
    if (depth > MOST_DEPTH || ++steps > MOST_STEPS) {
      return true;
    }
    if (base instanceof COSDictionary group) {
      return !isHidden(group, depth + 1);
    }
    if (!(base instanceof COSArray expression) || expression.size() == 0) {
      return true;
    }
    String operator = expression.getObject(0) instanceof COSName name ? name.getName() : "";
    if (operator.equals("Not")) {
      return expression.size() < 2 || !isVisible(expression.getObject(1), depth + 1);
    }
    boolean all = operator.equals("And");
    for (int i = 1; i < expression.size(); i++) {
      if (isVisible(expression.getObject(i), depth + 1) != all) {
        return !all;
      }
    }
    return all || expression.size() == 1;
  }
}
