package selvage.cli;

import java.io.BufferedReader;
import java.io.Console;
import java.io.IOException;
import java.io.InputStreamReader;
import java.nio.charset.StandardCharsets;
import java.nio.file.Path;
import java.util.Arrays;
import java.util.Optional;
import java.util.concurrent.Callable;
import picocli.CommandLine.Model.CommandSpec;
import selvage.cli.Declaration.Value;
import selvage.finding.InputException;
import selvage.web.Users;

/** {@code password NAME}: who may sign in to the pages. */
final class PasswordCommand implements Callable<Integer> {
  private final Declaration declaration =
      new Declaration(
          this,
          "Gives a user of the web pages a password, new or another. It is asked for at the"
              + " terminal; only a hash is kept.");

  private final Value<String> name =
      declaration.parameter(0, String.class, "NAME", null, "The user's name.");

  private final Value<Path> users =
      declaration.option(
          Path.class,
          "FILE",
          ServeCommand.USERS,
          "The file of users, as the command serve has it. Default: ${DEFAULT-VALUE}.",
          "--users");

  private final Value<Boolean> remove =
      declaration.flag("Take the user's right to sign in instead.", "--remove");

  private final Value<Boolean> standardInput =
      declaration.flag(
          "Read the password from the first line of standard input instead.", "--stdin");

  PasswordCommand() {
    declaration.help("-h", "--help");
  }

  CommandSpec spec() {
    return declaration.spec();
  }

  @Override
  public Integer call() throws InputException, IOException {
    Users file = new Users(users.get());
    if (remove.get()) {
      file.remove(name.get());
      declaration.out().println(name.get() + " can no longer sign in.");
      return ExitStatus.DONE;
    }
    file.set(name.get(), password());
    declaration.out().println(name.get() + " can sign in. Kept in " + users.get() + ".");
    return ExitStatus.DONE;
  }

  private String password() throws InputException, IOException {
    if (standardInput.get()) {
      String line =
          new BufferedReader(new InputStreamReader(System.in, StandardCharsets.UTF_8)).readLine();
      if (line == null) {
        throw InputException.of(
            "standard input", "expected a password in its first line, found nothing");
      }
      return line;
    }
    Console console =
        Optional.ofNullable(System.console())
            .orElseThrow(
                () ->
                    InputException.of(
                        "the terminal",
                        "expected one to ask for the password at, found none; give the password"
                            + " in the first line of standard input, and --stdin"));
    char[] first =
        console.readPassword("Password, at least %d letters: ", Users.LEAST_PASSWORD_LETTERS);
    char[] second = console.readPassword("Once more: ");
    if (first == null || second == null || !Arrays.equals(first, second)) {
      throw InputException.of("the terminal", "expected the same password twice");
    }
    return new String(first);
  }
}
