package conewise.station.calibrating;

import conewise.protocol.JigIdentity;
import conewise.station.files.BadFileException;
import conewise.station.files.Existing;
import java.io.IOException;
import java.nio.file.DirectoryStream;
import java.nio.file.Files;
import java.nio.file.NoSuchFileException;
import java.nio.file.NotDirectoryException;
import java.nio.file.Path;
import java.util.ArrayList;
import java.util.Comparator;
import java.util.List;
import java.util.Locale;
import java.util.Map;
import java.util.Optional;

/**
 * A folder that holds the calibrations of all jigs: {@code jig-<serial>/<id>.json}. Nothing in it
 * is ever replaced or removed.
 *
 * @param folder where they are kept; made on first use
 */
public record CalibrationShelf(Path folder) {

  /** The variable that names another folder for all commands. */
  public static final String VARIABLE = "CONEWISE_CALIBRATIONS";

  private static final String WITHOUT_SERIAL = "no-serial";

  /**
   * What a shelf holds for a jig.
   *
   * @param stored the youngest calibration of this jig, and the file that it is in
   * @param foreign why the youngest of this serial number is of another jig, when none is of this
   *     one
   * @param unreadable what is wrong with files that could not be read, a sentence each
   */
  public record Held(Optional<Kept> stored, Optional<String> foreign, List<String> unreadable) {
    public Held {
      unreadable = List.copyOf(unreadable);
    }
  }

  /** A calibration and the file that it is in. */
  public record Kept(StoredCalibration calibration, Path file) {}

  /**
   * The shelf that is meant when nobody names one: what {@value #VARIABLE} says, else a folder
   * under the user's own configuration (on Linux by the XDG Base Directory Specification).
   *
   * @param variables the process's environment
   * @param system the name of the operating system, as the property {@code os.name} has it
   * @param home the user's home
   */
  public static CalibrationShelf usual(Map<String, String> variables, String system, Path home) {
    Optional<Path> named = absolute(variables.get(VARIABLE));
    if (named.isPresent()) {
      return new CalibrationShelf(named.get());
    }
    String lower = system.toLowerCase(Locale.ROOT);
    Path configuration;
    if (lower.startsWith("windows")) {
      configuration =
          absolute(variables.get("APPDATA")).orElse(home.resolve("AppData").resolve("Roaming"));
    } else if (lower.startsWith("mac")) {
      configuration = home.resolve("Library").resolve("Application Support");
    } else {
      // A relative path there is invalid and to be ignored (same specification).
      configuration = absolute(variables.get("XDG_CONFIG_HOME")).orElse(home.resolve(".config"));
    }
    return new CalibrationShelf(configuration.resolve("conewise").resolve("calibrations"));
  }

  private static Optional<Path> absolute(String text) {
    return Optional.ofNullable(text)
        .filter(t -> !t.isBlank())
        .map(Path::of)
        .filter(Path::isAbsolute);
  }

  /** The folder of one jig; serial numbers are letters, digits and hyphens, so it stays inside. */
  public Path folderOf(JigIdentity jig) {
    return folder.resolve(jig.jig().serial().map(serial -> "jig-" + serial).orElse(WITHOUT_SERIAL));
  }

  /**
   * Keeps a calibration beside the older ones.
   *
   * @return the file that it is in
   * @throws BadFileException when it cannot be written, or one of its id is there already
   */
  public Path keep(StoredCalibration stored) throws BadFileException {
    Path ofJig = folderOf(stored.jig());
    try {
      Files.createDirectories(ofJig);
    } catch (IOException e) {
      BadFileException bad =
          new BadFileException(
              ofJig + " cannot be made; check the rights, or name another folder.");
      bad.initCause(e);
      throw bad;
    }
    Path file = ofJig.resolve(stored.calibration().id() + ".json");
    CalibrationFile.write(file, stored, Existing.REFUSE);
    return file;
  }

  /**
   * Looks for a jig's calibrations.
   *
   * @throws BadFileException when the folder is there and cannot be read
   */
  public Held of(JigIdentity jig) throws BadFileException {
    List<Kept> read = new ArrayList<>();
    List<String> unreadable = new ArrayList<>();
    for (Path file : files(folderOf(jig))) {
      try {
        read.add(new Kept(CalibrationFile.read(file), file));
      } catch (BadFileException bad) {
        unreadable.add(bad.getMessage());
      }
    }
    read.sort(
        Comparator.comparing((Kept kept) -> kept.calibration().taken().toInstant()).reversed());
    Optional<Kept> own =
        read.stream().filter(kept -> kept.calibration().foreignTo(jig).isEmpty()).findFirst();
    Optional<String> foreign =
        own.isPresent()
            ? Optional.empty()
            : read.stream().findFirst().flatMap(kept -> kept.calibration().foreignTo(jig));
    return new Held(own, foreign, unreadable);
  }

  /**
   * The folders of all jigs that have one, in the order of their names.
   *
   * @throws BadFileException when the shelf is there and cannot be read
   */
  public List<Path> jigs() throws BadFileException {
    return listed(folder, "{jig-*," + WITHOUT_SERIAL + "}");
  }

  /** The youngest calibration in a jig's folder, of whichever board; none that can be read. */
  public static Optional<StoredCalibration> youngest(Path ofJig) throws BadFileException {
    List<StoredCalibration> read = new ArrayList<>();
    for (Path file : files(ofJig)) {
      try {
        read.add(CalibrationFile.read(file));
      } catch (BadFileException unreadable) {
        // One that cannot be read is none; sweep and check say so of it.
      }
    }
    return read.stream().max(Comparator.comparing(each -> each.taken().toInstant()));
  }

  private static List<Path> files(Path ofJig) throws BadFileException {
    return listed(ofJig, "*.json");
  }

  private static List<Path> listed(Path ofJig, String pattern) throws BadFileException {
    List<Path> files = new ArrayList<>();
    try (DirectoryStream<Path> listed = Files.newDirectoryStream(ofJig, pattern)) {
      listed.forEach(files::add);
    } catch (NoSuchFileException | NotDirectoryException noneYet) {
      return List.of();
    } catch (IOException | java.nio.file.DirectoryIteratorException e) {
      BadFileException bad =
          new BadFileException(
              ofJig + " cannot be read; check its rights, or name another folder.");
      bad.initCause(e);
      throw bad;
    }
    files.sort(Comparator.naturalOrder());
    return files;
  }
}
