package selvage.web;

import com.fasterxml.jackson.core.JsonProcessingException;
import com.fasterxml.jackson.databind.ObjectMapper;
import com.fasterxml.jackson.databind.node.ArrayNode;
import com.fasterxml.jackson.databind.node.ObjectNode;
import java.util.LinkedHashMap;
import java.util.Map;
import selvage.comparison.Comparison;
import selvage.comparison.LabMean;
import selvage.comparison.ScoredPair;
import selvage.comparison.Trend;
import selvage.report.ComparisonText;

/** A comparison's figures for the page's script: JSON that may stand in an HTML element. */
final class ChartData {
  private static final ObjectMapper MAPPER = new ObjectMapper();

  private ChartData() {}

  static String of(Comparison comparison) {
    ObjectNode root = MAPPER.createObjectNode();
    ArrayNode sources = root.putArray("distribution");
    Map<ScoredPair.Source, ObjectNode> bySource = new LinkedHashMap<>();
    for (ScoredPair pair : comparison.pairs()) {
      ObjectNode source =
          bySource.computeIfAbsent(
              pair.source(),
              key -> {
                ObjectNode made = sources.addObject();
                made.put("name", ComparisonText.name(key));
                made.putArray("job");
                made.putArray("standard");
                return made;
              });
      source.withArray("job").add(rounded(pair.jobDe00()));
      source.withArray("standard").add(rounded(pair.standardDe00()));
    }
    ArrayNode trends = root.putArray("trends");
    comparison.trends().forEach(trend -> add(trend, trends.addObject()));
    return escaped(root);
  }

  /** Nothing in it ends the element that it stands in. */
  private static String escaped(ObjectNode root) {
    try {
      return MAPPER
          .writeValueAsString(root)
          .replace("<", "\\u003c")
          .replace(">", "\\u003e")
          .replace("&", "\\u0026");
    } catch (JsonProcessingException e) {
      throw new IllegalStateException(e);
    }
  }

  private static void add(Trend trend, ObjectNode node) {
    node.put("name", ComparisonText.name(trend.source()));
    ArrayNode times = node.putArray("time");
    ArrayNode proofs = node.putArray("proof");
    ArrayNode calibrations = node.putArray("calibrations");
    ArrayNode axes = node.putArray("axes");
    for (int axis = 0; axis < 3; axis++) {
      ObjectNode chart = axes.addObject();
      for (String name : new String[] {"mean", "average", "low", "high", "alarm"}) {
        chart.putArray(name);
      }
    }
    for (Trend.Stage stage : trend.stages()) {
      stage.begin().ifPresent(begin -> calibrations.add(begin.getEpochSecond()));
      for (Trend.Point point : stage.points()) {
        times.add(point.time().getEpochSecond());
        proofs.add(point.proof());
        for (int axis = 0; axis < 3; axis++) {
          add(point, axis, (ObjectNode) axes.get(axis));
        }
      }
    }
  }

  private static void add(Trend.Point point, int axis, ObjectNode chart) {
    chart.withArray("mean").add(rounded(point.mean().axis(axis)));
    if (point.chart().isEmpty()) {
      for (String name : new String[] {"average", "low", "high", "alarm"}) {
        chart.withArray(name).addNull();
      }
      return;
    }
    Trend.Chart held = point.chart().get();
    double average = held.average().axis(axis);
    LabMean centre = held.centre();
    chart.withArray("average").add(rounded(average));
    chart.withArray("low").add(rounded(centre.axis(axis) - held.limit().axis(axis)));
    chart.withArray("high").add(rounded(centre.axis(axis) + held.limit().axis(axis)));
    if (held.isAlarm(axis)) {
      chart.withArray("alarm").add(rounded(average));
    } else {
      chart.withArray("alarm").addNull();
    }
  }

  private static double rounded(double value) {
    return Math.round(value * 1e4) / 1e4 + 0.0;
  }
}
