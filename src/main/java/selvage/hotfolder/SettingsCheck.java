package selvage.hotfolder;

import java.nio.file.Path;
import java.util.HashMap;
import java.util.HashSet;
import java.util.LinkedHashMap;
import java.util.List;
import java.util.Map;
import java.util.Set;
import selvage.color.ReferenceConditions;
import selvage.color.SpotLibrary;
import selvage.finding.InputException;
import selvage.score.ToleranceSets;
import selvage.strip.ReaderGeometry;
import selvage.strip.StandardStrip;

/** What settings must fulfil beyond their form, whether they come from a file or from options. */
public final class SettingsCheck {
  /** Two are the least that let a small job pass a large one. */
  private static final int LEAST_WORKERS = 2;

  private static final int USUAL_MEGABYTES = 1024;

  private SettingsCheck() {}

  /** As many workers as there are processors, at least two. */
  public static int defaultWorkers() {
    return Math.max(LEAST_WORKERS, Math.min(8, Runtime.getRuntime().availableProcessors()));
  }

  /** The memory of a worker: this process's own, where that is less than the usual. */
  public static int defaultMegabytes() {
    return (int) Math.max(64, Math.min(USUAL_MEGABYTES, Runtime.getRuntime().maxMemory() >> 20));
  }

  /**
   * Checks that folders keep apart and that what they name can be had.
   *
   * @param source of the settings, for messages
   * @return the settings
   * @throws InputException where a worker would fail on every job, or files would go round
   */
  public static WatchSettings checked(String source, WatchSettings settings) throws InputException {
    Set<String> names = new HashSet<>();
    Map<Path, String> drops = new HashMap<>();
    Map<Path, String> places = new LinkedHashMap<>();
    for (FolderSettings folder : settings.folders()) {
      if (!names.add(folder.name())) {
        throw InputException.of(
            source,
            "two folders are called \"" + folder.name() + "\"; give each a name of its own");
      }
      FolderSettings.Places at = folder.places();
      drop(source, drops, at.incoming(), "incoming of " + folder.name());
      if (at.measured().isPresent()) {
        drop(source, drops, at.measured().get(), "measured of " + folder.name());
      }
      place(source, places, at.outgoing(), "outgoing");
      place(source, places, at.refused(), "refused");
      place(source, places, at.done(), "done");
      checkNamed(folder);
    }
    for (Map.Entry<Path, String> drop : drops.entrySet()) {
      for (Map.Entry<Path, String> other : drops.entrySet()) {
        if (!drop.getKey().equals(other.getKey())) {
          keepApart(source, drop, other);
        }
      }
      for (Map.Entry<Path, String> place : places.entrySet()) {
        keepApart(source, drop, place);
        keepApart(source, place, drop);
      }
    }
    return settings;
  }

  private static void drop(String source, Map<Path, String> drops, Path path, String what)
      throws InputException {
    String before = drops.putIfAbsent(real(path), what);
    if (before != null) {
      throw InputException.of(
          source, path + " is both " + before + " and " + what + "; give each its own folder");
    }
  }

  private static void place(String source, Map<Path, String> places, Path path, String role)
      throws InputException {
    String before = places.putIfAbsent(real(path), role);
    if (before != null && !before.equals(role)) {
      throw InputException.of(
          source, path + " is both " + before + " and " + role + "; give each its own folder");
    }
  }

  private static void keepApart(
      String source, Map.Entry<Path, String> one, Map.Entry<Path, String> other)
      throws InputException {
    if (other.getKey().startsWith(one.getKey())) {
      throw InputException.of(
          source,
          "the folder for "
              + other.getValue()
              + " ("
              + other.getKey()
              + ") lies within that for "
              + one.getValue()
              + " ("
              + one.getKey()
              + "); files would go round; put them side by side");
    }
  }

  private static Path real(Path path) {
    return path.toAbsolutePath().normalize();
  }

  private static void checkNamed(FolderSettings folder) throws InputException {
    FolderSettings.Stamping stamping = folder.stamping();
    if (stamping.condition().isPresent()) {
      ReferenceConditions.resolve(stamping.condition().get());
    }
    StandardStrip.load(stamping.standard());
    ReaderGeometry.load(stamping.reader());
    ToleranceSets.resolve(folder.tolerance());
    List<Path> spots = stamping.spots();
    for (Path spot : spots) {
      SpotLibrary.read(spot);
    }
  }
}
