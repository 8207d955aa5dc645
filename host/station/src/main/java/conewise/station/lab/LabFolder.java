package conewise.station.lab;

import conewise.station.answer.CommandFailure;
import conewise.station.answer.ExitCode;
import conewise.station.answer.ProgressLine;
import conewise.station.answer.Screen;
import conewise.station.files.BadFileException;
import conewise.station.files.CaptureTable;
import conewise.station.files.Existing;
import conewise.station.files.ImpedanceTable;
import conewise.station.files.NewFile;
import conewise.station.measuring.StopRequest;
import java.io.IOException;
import java.nio.file.Files;
import java.nio.file.Path;
import java.util.ArrayList;
import java.util.List;

/**
 * Writes a student's data sets into a folder: one folder an experiment, and a sheet for answers.
 */
public final class LabFolder {
  private static final String TABLE = ".csv";

  private final Path folder;
  private final Screen screen;
  private final ProgressLine progress;
  private final StopRequest stop;
  private final List<Path> written = new ArrayList<>();

  private LabFolder(Path folder, Screen screen, ProgressLine progress, StopRequest stop) {
    this.folder = folder;
    this.screen = screen;
    this.progress = progress;
    this.stop = stop;
  }

  /**
   * Measures all on a virtual jig and writes it. About half a second for each thing measured.
   *
   * @param folder made if it is not there; nothing in it is replaced
   * @return what was written
   * @throws CommandFailure when it cannot be written, or somebody asked to stop
   */
  public static List<Path> write(
      Assignments assignments, Path folder, Screen screen, ProgressLine progress, StopRequest stop)
      throws CommandFailure {
    LabFolder made = new LabFolder(folder, screen, progress, stop);
    try {
      made.write(assignments);
    } catch (BadFileException bad) {
      throw new CommandFailure(ExitCode.CANNOT_WRITE, bad.getMessage(), bad);
    }
    return List.copyOf(made.written);
  }

  private void write(Assignments assignments) throws CommandFailure, BadFileException {
    for (Assignment each : assignments.all()) {
      Path place = folder.resolve(each.experiment().word());
      if (Files.exists(place)) {
        throw new CommandFailure(
            ExitCode.CANNOT_WRITE, place + " is there already; name another folder with --out.");
      }
    }
    Path answers = folder.resolve("answers.csv");
    if (Files.exists(answers)) {
      throw new CommandFailure(
          ExitCode.CANNOT_WRITE, answers + " is there already; name another folder with --out.");
    }
    int done = 0;
    for (Assignment each : assignments.all()) {
      progress.show((double) done++ / assignments.all().size(), each.experiment().word());
      write(assignments.student(), each);
    }
    text(answers, TaskSheet.emptyAnswers(assignments));
  }

  private void write(Student student, Assignment assignment)
      throws CommandFailure, BadFileException {
    Path place = folder.resolve(assignment.experiment().word());
    make(place);
    LabBench bench = new LabBench(ProgressLine.silent(screen), stop);
    for (Measured each : assignment.measured()) {
      if (stop.asked()) {
        throw new CommandFailure(
            ExitCode.NOT_JUDGED, "Stopped; what is complete so far is kept in " + folder + ".");
      }
      Obtained obtained = bench.sweep(student, assignment.experiment(), each);
      Path curve = place.resolve(each.stem() + TABLE);
      List<String> about = TaskSheet.about(student, assignment, each);
      ImpedanceTable.write(curve, about, obtained.curve(), Existing.REFUSE);
      written.add(curve);
      Path raw = place.resolve(each.stem() + "-raw" + TABLE);
      CaptureTable.write(raw, about, obtained.raw(), Existing.REFUSE);
      written.add(raw);
    }
    Measured first = assignment.measured().get(0);
    Path tone = place.resolve("tone" + TABLE);
    CaptureTable.write(
        tone,
        TaskSheet.about(student, assignment, first),
        bench.tone(student, assignment.experiment(), first, assignment.tone()),
        Existing.REFUSE);
    written.add(tone);
    if (assignment.plan().isPresent()) {
      text(place.resolve("plan.yaml"), assignment.plan().get());
    }
    text(place.resolve("task.md"), TaskSheet.write(student, assignment));
  }

  private void text(Path file, String text) throws BadFileException {
    NewFile.writeText(file, Existing.REFUSE, text);
    written.add(file);
  }

  private static void make(Path place) throws CommandFailure {
    try {
      Files.createDirectories(place);
    } catch (IOException e) {
      throw new CommandFailure(
          ExitCode.CANNOT_WRITE,
          place + " cannot be made (" + e.getClass().getSimpleName() + "); choose another place.",
          e);
    }
  }
}
