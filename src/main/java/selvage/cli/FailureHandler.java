package selvage.cli;

import java.io.IOException;
import java.io.PrintWriter;
import picocli.CommandLine;
import picocli.CommandLine.IExecutionExceptionHandler;
import picocli.CommandLine.ParseResult;
import selvage.finding.InputException;
import selvage.ledger.LedgerException;

/** The one place where exceptions become exit statuses. */
final class FailureHandler implements IExecutionExceptionHandler {
  @Override
  public int handleExecutionException(
      Exception exception, CommandLine commandLine, ParseResult parsed) {
    PrintWriter err = commandLine.getErr();
    if (exception instanceof InputException) {
      err.println(exception.getMessage());
      return ExitStatus.INPUT;
    }
    if (exception instanceof LedgerException) {
      err.println(exception.getMessage() + "; try again");
      return ExitStatus.INPUT;
    }
    if (exception instanceof IOException) {
      err.println(exception.getClass().getSimpleName() + ": " + exception.getMessage());
      return ExitStatus.INPUT;
    }
    err.println("A fault in the program; please report it with the file that caused it:");
    exception.printStackTrace(err);
    return ExitStatus.FAULT;
  }

  /** The last net under input that asks for more than the machine has. */
  static int exhausted(Error error, PrintWriter err) {
    err.println(
        error instanceof StackOverflowError
            ? "The input can't be used: what it holds lies too deep in one another."
            : "The input can't be used: it needs more memory than the "
                + (Runtime.getRuntime().maxMemory() >> 20)
                + " megabytes there are; look for objects of absurd size, or give more"
                + " (java -Xmx).");
    return ExitStatus.INPUT;
  }
}
