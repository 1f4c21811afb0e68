package selvage.power;

import java.awt.Color;
import java.io.IOException;
import java.nio.file.Path;
import java.util.Map;
import org.knowm.xchart.BitmapEncoder;
import org.knowm.xchart.XYChart;
import org.knowm.xchart.XYChartBuilder;
import org.knowm.xchart.style.Styler.LegendPosition;

/** Agreement with the truth by the number of job patches. */
final class PowerPlot {
  private static final String[] WAYS = {
    "job, by area", "job, plain", "standard", "both, plain", "k-means, by area", "random, by area"
  };

  private PowerPlot() {}

  static void write(Path file, int[] counts, Map<String, PowerBenchmark.Tally> tallies)
      throws IOException {
    XYChart chart =
        new XYChartBuilder()
            .width(900)
            .height(520)
            .title("Agreement of the verdict with the whole page")
            .xAxisTitle("job patches")
            .yAxisTitle("balanced agreement, %")
            .build();
    chart.getStyler().setLegendPosition(LegendPosition.InsideSE);
    chart.getStyler().setChartBackgroundColor(Color.WHITE);
    for (String way : WAYS) {
      double[] x = new double[counts.length];
      double[] y = new double[counts.length];
      double[] error = new double[counts.length];
      for (int i = 0; i < counts.length; i++) {
        PowerBenchmark.Tally tally = tallies.get(PowerBenchmark.key(way, counts[i]));
        x[i] = counts[i];
        y[i] = tally.balancedPercent();
        error[i] = tally.halfInterval();
      }
      chart.addSeries(way, x, y, error);
    }
    BitmapEncoder.saveBitmap(chart, file.toString(), BitmapEncoder.BitmapFormat.PNG);
  }
}
