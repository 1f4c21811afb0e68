package selvage.cli;

import java.io.BufferedReader;
import java.io.IOException;
import java.io.InputStream;
import java.io.InputStreamReader;
import java.nio.charset.StandardCharsets;
import java.util.concurrent.CountDownLatch;

/**
 * Prepares a job's classes on a second processor while the command line is being read.
 *
 * <p>The classes stand in {@code startup-classes.txt}, in two parts. Those before the line {@code
 * --} have costly initialisers; they are initialised, and {@link #await} waits for them, so that no
 * two threads are ever initialising classes at once. Those after it are only loaded and linked,
 * which is safe beside anything. A name that is not there is passed over: the list makes a start
 * quicker and changes nothing else.
 */
final class Startup {
  private static final String LIST = "startup-classes.txt";

  private final CountDownLatch initialized = new CountDownLatch(1);

  private Startup() {}

  /** Begins, in a thread that does not keep the program alive. */
  static Startup begin() {
    Startup startup = new Startup();
    Thread thread = new Thread(startup::prepare, "startup");
    thread.setDaemon(true);
    thread.start();
    return startup;
  }

  /** Waits until the first part of the list is done: some tens of milliseconds after the start. */
  void await() {
    try {
      initialized.await();
    } catch (InterruptedException e) {
      Thread.currentThread().interrupt();
    }
  }

  private void prepare() {
    try (InputStream list = Startup.class.getResourceAsStream(LIST);
        BufferedReader lines =
            new BufferedReader(new InputStreamReader(list, StandardCharsets.US_ASCII))) {
      String name = lines.readLine();
      for (; name != null && !name.equals("--"); name = lines.readLine()) {
        prepare(name, true);
      }
      initialized.countDown();
      for (name = lines.readLine(); name != null; name = lines.readLine()) {
        link(prepare(name, false));
      }
    } catch (IOException | RuntimeException | LinkageError e) {
      // Nothing depends on it; what is really amiss shows where the class is used.
    } finally {
      initialized.countDown();
    }
  }

  /** Asking for a class's constructors links it, and does not initialise it. */
  @SuppressWarnings("ReturnValueIgnored")
  private static void link(Class<?> loaded) {
    loaded.getDeclaredConstructors();
  }

  private static Class<?> prepare(String name, boolean initialize) {
    try {
      return Class.forName(name, initialize, Startup.class.getClassLoader());
    } catch (ClassNotFoundException e) {
      return Startup.class;
    }
  }
}
