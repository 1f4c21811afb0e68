package selvage.cli;

import java.util.concurrent.Callable;
import picocli.CommandLine.Command;
import picocli.CommandLine.Mixin;

/** {@code survey JOB}. */
@Command(
    name = "survey",
    description = "Separates a job into ink planes and says which colours it is made of.")
final class SurveyCommand implements Callable<Integer> {
  @Mixin JobOptions job = new JobOptions();

  @Override
  public Integer call() {
    return ExitStatus.DONE;
  }
}
