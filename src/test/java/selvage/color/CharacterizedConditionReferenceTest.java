package selvage.color;

import static org.assertj.core.api.Assertions.assertThat;

import java.util.List;
import org.junit.jupiter.api.Test;

class CharacterizedConditionReferenceTest {
  @Test
  void aim_betweenNodes_agreesWithAProfileOfTheSameData() {
    List<double[]> rows =
        ReferenceTable.read("fogra39-profile-absolute.csv", "c", "m", "y", "k", "l", "a", "b");
    ReferenceCondition condition = ReferenceConditions.defaultCondition();
    double sum = 0;
    double worst = 0;
    String where = "";
    for (double[] row : rows) {
      Lab expected = new Lab(row[4], row[5], row[6]);
      double error =
          ColorDifference.de00(expected, condition.aim(row[0], row[1], row[2], row[3]).lab());
      sum += error;
      if (error > worst) {
        worst = error;
        where = row[0] + " " + row[1] + " " + row[2] + " " + row[3];
      }
    }
    assertThat(rows).hasSize(1000);
    assertThat(sum / rows.size()).isLessThan(0.25);
    assertThat(worst).as("worst, at %s", where).isLessThan(1.2);
  }
}
