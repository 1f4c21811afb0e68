package selvage.cli;

import java.io.File;
import java.io.IOException;
import java.io.OutputStream;
import java.nio.file.Files;
import java.nio.file.Path;
import java.util.ArrayList;
import java.util.List;
import java.util.Map;
import java.util.concurrent.TimeUnit;
import java.util.jar.Attributes;
import java.util.jar.JarOutputStream;
import java.util.jar.Manifest;

/** Runs a jar of the program as a user does, with {@code java -jar}. */
final class JarRun {
  /** What a run left: its exit status, standard output and standard error. */
  record Result(int status, String out, String err) {}

  /** An option that changes nothing but keeps the command in the first process. */
  static final String ONE_PROCESS = "-Dnothing=here";

  private final Path jar;
  private final Path folder;

  private JarRun(Path jar, Path folder) {
    this.jar = jar;
    this.folder = folder;
  }

  /** Runs a jar that is there, in a folder for files. */
  static JarRun of(Path jar, Path folder) {
    return new JarRun(jar, folder);
  }

  /** Runs the classes under test through a jar that names them. */
  static JarRun ofClasses(Path folder) throws IOException {
    String path =
        System.getProperty("surefire.test.class.path", System.getProperty("java.class.path"));
    List<String> entries = new ArrayList<>();
    for (String entry : path.split(File.pathSeparator, -1)) {
      entries.add(Path.of(entry).toUri().toString());
    }
    Manifest manifest = new Manifest();
    manifest.getMainAttributes().put(Attributes.Name.MANIFEST_VERSION, "1.0");
    manifest.getMainAttributes().put(Attributes.Name.MAIN_CLASS, Launcher.class.getName());
    manifest.getMainAttributes().put(Attributes.Name.CLASS_PATH, String.join(" ", entries));
    Path jar = folder.resolve("program.jar");
    try (OutputStream out = Files.newOutputStream(jar)) {
      new JarOutputStream(out, manifest).close();
    }
    return new JarRun(jar, folder);
  }

  /** Starts the jar; standard output and error go to the files {@code out} and {@code err}. */
  Process start(Map<String, String> environment, List<String> options, String... arguments)
      throws IOException {
    List<String> command = new ArrayList<>();
    command.add(Path.of(System.getProperty("java.home"), "bin", "java").toString());
    command.addAll(options);
    command.add("-jar");
    command.add(jar.toString());
    command.addAll(List.of(arguments));
    ProcessBuilder builder = new ProcessBuilder(command).directory(folder.toFile());
    builder.redirectOutput(folder.resolve("out").toFile());
    builder.redirectError(folder.resolve("err").toFile());
    for (String name : List.of("JDK_JAVA_OPTIONS", "JAVA_TOOL_OPTIONS", "_JAVA_OPTIONS")) {
      builder.environment().remove(name);
    }
    builder.environment().putAll(environment);
    return builder.start();
  }

  Result run(Map<String, String> environment, List<String> options, String... arguments)
      throws IOException, InterruptedException {
    Process process = start(environment, options, arguments);
    if (!process.waitFor(120, TimeUnit.SECONDS)) {
      process.destroyForcibly();
      throw new IOException("the program does not end");
    }
    return new Result(
        process.exitValue(),
        Files.readString(folder.resolve("out")),
        Files.readString(folder.resolve("err")));
  }

  /** A plain start, as in the README. */
  Result run(String... arguments) throws IOException, InterruptedException {
    return run(Map.of(), List.of(), arguments);
  }

  /** The same in one process. */
  Result runInOne(String... arguments) throws IOException, InterruptedException {
    return run(Map.of(), List.of(ONE_PROCESS), arguments);
  }
}
