package selvage.hotfolder;

import java.io.IOException;
import java.io.UncheckedIOException;
import java.nio.file.Files;
import java.nio.file.Path;
import java.time.Duration;
import java.util.List;
import java.util.Optional;
import java.util.OptionalInt;
import selvage.strip.StripLabel;

/** A hot folder in a temporary place. */
final class HotFolderFixture {
  private HotFolderFixture() {}

  static FolderSettings folder(Path root) {
    return new FolderSettings(
        "house",
        new FolderSettings.Places(
            root.resolve("in"),
            root.resolve("out"),
            root.resolve("refused"),
            Optional.of(root.resolve("measured")),
            root.resolve("done")),
        new FolderSettings.Stamping(
            Optional.of("FOGRA39"),
            "basic",
            6,
            "handheld-spot",
            "auto",
            false,
            72,
            List.of(),
            List.of(new StripLabel.Item("Proofing system", "Proofer 1"))),
        "iso-12647-7-2016",
        Duration.ofMinutes(2),
        Optional.empty());
  }

  static FolderSettings made(Path root) {
    FolderSettings folder = folder(root);
    try {
      for (Path path :
          List.of(
              folder.places().incoming(),
              folder.places().outgoing(),
              folder.places().refused(),
              folder.places().measured().orElseThrow(),
              folder.places().done())) {
        Files.createDirectories(path);
      }
    } catch (IOException e) {
      throw new UncheckedIOException(e);
    }
    return folder;
  }

  static WatchSettings settings(Path root) {
    return new WatchSettings(
        List.of(made(root)),
        root.resolve("ledger.db").toString(),
        2,
        256,
        Duration.ofMillis(200),
        Duration.ofMillis(100),
        OptionalInt.empty());
  }

  /** A small page with two inks; another number gives other bytes. */
  static byte[] job(int number) {
    String content =
        "0." + (1 + number % 9) + " 0.3 0 0.1 k 10 10 200 200 re f 0 1 0 0 k 50 50 60 60 re f";
    StringBuilder pdf = new StringBuilder("%PDF-1.4\n% job " + number + "\n");
    String[] objects = {
      "<</Type/Catalog/Pages 2 0 R>>",
      "<</Type/Pages/Kids[3 0 R]/Count 1>>",
      "<</Type/Page/Parent 2 0 R/MediaBox[0 0 298 420]/Contents 4 0 R>>",
      "<</Length " + content.length() + ">>stream\n" + content + "\nendstream"
    };
    StringBuilder table = new StringBuilder("xref\n0 5\n0000000000 65535 f \n");
    for (int i = 0; i < objects.length; i++) {
      table.append(String.format(java.util.Locale.ROOT, "%010d 00000 n \n", pdf.length()));
      pdf.append(i + 1).append(" 0 obj\n").append(objects[i]).append("\nendobj\n");
    }
    int start = pdf.length();
    pdf.append(table).append("trailer<</Size 5/Root 1 0 R>>\nstartxref\n").append(start);
    pdf.append("\n%%EOF\n");
    return pdf.toString().getBytes(java.nio.charset.StandardCharsets.US_ASCII);
  }
}
