package selvage.hotfolder;

import com.fasterxml.jackson.databind.JsonNode;
import com.fasterxml.jackson.databind.ObjectMapper;
import com.fasterxml.jackson.databind.node.ObjectNode;
import java.io.BufferedReader;
import java.io.IOException;
import java.io.InputStream;
import java.io.InputStreamReader;
import java.io.PrintStream;
import java.io.PrintWriter;
import java.io.StringWriter;
import java.nio.charset.StandardCharsets;
import java.nio.file.FileSystemException;
import java.util.concurrent.BlockingQueue;
import java.util.concurrent.LinkedBlockingQueue;
import selvage.finding.InputException;

/**
 * The process that works on files for the hot folder: requests come as lines of JSON, and each is
 * answered by one. It ends when nobody sends any more.
 */
public final class Worker {
  private static final String END = "";

  private final ObjectMapper mapper = new ObjectMapper();
  private final PrintStream out;

  private Worker(PrintStream out) {
    this.out = out;
  }

  /**
   * Works until the input ends. If that happens amid work, the whole process ends at once: whoever
   * asked is gone, and nobody waits for the result.
   *
   * @param in requests
   * @param out replies; nothing else may write there
   */
  public static void serve(InputStream in, PrintStream out) throws InterruptedException {
    BlockingQueue<String> requests = new LinkedBlockingQueue<>();
    Thread reader = new Thread(() -> read(in, requests), "requests");
    reader.setDaemon(true);
    reader.start();
    Worker worker = new Worker(out);
    while (true) {
      String line = requests.take();
      if (line.equals(END)) {
        return;
      }
      worker.answer(line);
    }
  }

  private static void read(InputStream in, BlockingQueue<String> requests) {
    try (BufferedReader lines =
        new BufferedReader(new InputStreamReader(in, StandardCharsets.UTF_8))) {
      for (String line = lines.readLine(); line != null; line = lines.readLine()) {
        requests.add(line);
      }
    } catch (IOException e) {
      // As if it had ended.
    }
    Runtime.getRuntime().halt(0);
  }

  private void answer(String line) {
    ObjectNode reply = mapper.createObjectNode();
    boolean isSpent = false;
    try {
      JsonNode request = mapper.readTree(line);
      if (Kind.JOB.word().equals(request.path("kind").asText())) {
        StampTask.run(request, reply);
      } else {
        ScoreTask.run(request, reply);
      }
    } catch (TakesLongException e) {
      reply.put("outcome", "long");
    } catch (InputException e) {
      boolean isOurs = e.getCause() instanceof FileSystemException;
      reply.put("outcome", isOurs ? "doubtful" : "refused").put("why", e.getMessage());
    } catch (IOException e) {
      reply
          .put("outcome", "doubtful")
          .put("why", e.getClass().getSimpleName() + ": " + e.getMessage());
    } catch (OutOfMemoryError | StackOverflowError e) {
      isSpent = true;
      reply.put("outcome", "refused").put("why", exhausted(e));
    } catch (RuntimeException | LinkageError e) {
      StringWriter trace = new StringWriter();
      e.printStackTrace(new PrintWriter(trace));
      reply.put("outcome", "fault").put("why", String.valueOf(e)).put("trace", trace.toString());
    }
    out.println(reply);
    out.flush();
    if (isSpent) {
      Runtime.getRuntime().halt(0);
    }
  }

  private static String exhausted(Error error) {
    return error instanceof StackOverflowError
        ? "what it holds lies too deep in one another"
        : "it needs more memory than the "
            + (Runtime.getRuntime().maxMemory() >> 20)
            + " megabytes that a worker has; look for objects of absurd size, or raise"
            + " worker_memory_mb";
  }

  /** Thrown where work goes on longer than a worker for short work may spend. */
  static final class TakesLongException extends RuntimeException {
    private static final long serialVersionUID = 1L;

    TakesLongException() {
      super("takes long");
    }
  }
}
