package selvage.hotfolder;

import com.fasterxml.jackson.core.JsonProcessingException;
import com.fasterxml.jackson.databind.JsonNode;
import com.fasterxml.jackson.databind.ObjectMapper;
import com.fasterxml.jackson.databind.node.ObjectNode;
import java.io.BufferedReader;
import java.io.IOException;
import java.io.InputStreamReader;
import java.io.OutputStream;
import java.nio.charset.StandardCharsets;
import java.time.Duration;
import java.util.List;
import java.util.concurrent.BlockingQueue;
import java.util.concurrent.LinkedBlockingQueue;
import java.util.concurrent.TimeUnit;

/**
 * A process that works on files one after another, started when it is first needed and again when
 * it is gone. What it reads may be hostile: it has memory of its own, and it can be killed. For use
 * by one thread; {@link #close} may come from any.
 */
final class WorkerProcess implements AutoCloseable {
  private static final String GONE = "";

  private final List<String> command;
  private final ObjectMapper mapper = new ObjectMapper();
  private volatile Process process;
  private volatile boolean closed;
  private BlockingQueue<String> replies = new LinkedBlockingQueue<>();

  /**
   * Prepares a process.
   *
   * @param command starts one that reads requests from its standard input and writes replies to its
   *     standard output, a JSON object a line
   */
  WorkerProcess(List<String> command) {
    this.command = List.copyOf(command);
  }

  /** How a request ended. */
  enum End {
    REPLIED,
    /** The process ended by itself, or was ended by the system. */
    DIED,
    TIMED_OUT,
    /** This object was closed meanwhile. */
    CLOSED
  }

  /**
   * What came of a request.
   *
   * @param end how
   * @param reply null unless {@link End#REPLIED}
   */
  record Answer(End end, JsonNode reply) {}

  /**
   * Has the process work, and waits for it.
   *
   * @param limit after it the process is killed
   * @throws IOException where no process can be started
   */
  Answer ask(ObjectNode request, Duration limit) throws IOException, InterruptedException {
    Process current = running();
    try {
      OutputStream out = current.getOutputStream();
      out.write((mapper.writeValueAsString(request) + "\n").getBytes(StandardCharsets.UTF_8));
      out.flush();
    } catch (IOException e) {
      current.destroyForcibly();
    }
    String line = replies.poll(limit.toMillis(), TimeUnit.MILLISECONDS);
    if (line == null) {
      kill(current);
      return new Answer(closed ? End.CLOSED : End.TIMED_OUT, null);
    }
    if (line.equals(GONE)) {
      kill(current);
      return new Answer(closed ? End.CLOSED : End.DIED, null);
    }
    try {
      return new Answer(End.REPLIED, mapper.readTree(line));
    } catch (JsonProcessingException e) {
      kill(current);
      return new Answer(End.DIED, null);
    }
  }

  private Process running() throws IOException {
    Process current = process;
    if (current != null && current.isAlive() && replies.isEmpty()) {
      return current;
    }
    if (current != null) {
      current.destroyForcibly();
    }
    if (closed) {
      throw new IOException("closed");
    }
    Process started =
        new ProcessBuilder(command).redirectError(ProcessBuilder.Redirect.INHERIT).start();
    BlockingQueue<String> lines = new LinkedBlockingQueue<>();
    Thread reader = new Thread(() -> read(started, lines), "worker-replies");
    reader.setDaemon(true);
    reader.start();
    replies = lines;
    process = started;
    if (closed) {
      started.destroyForcibly();
    }
    return started;
  }

  private static void read(Process from, BlockingQueue<String> lines) {
    try (BufferedReader in =
        new BufferedReader(new InputStreamReader(from.getInputStream(), StandardCharsets.UTF_8))) {
      for (String line = in.readLine(); line != null; line = in.readLine()) {
        if (!line.isBlank()) {
          lines.add(line);
        }
      }
    } catch (IOException e) {
      // Its end is told below.
    }
    lines.add(GONE);
  }

  private void kill(Process current) throws InterruptedException {
    current.destroyForcibly();
    current.waitFor(10, TimeUnit.SECONDS);
    process = null;
  }

  @Override
  public void close() {
    closed = true;
    Process current = process;
    if (current != null) {
      current.destroyForcibly();
    }
  }
}
