package conewise.station.command;

import conewise.analysis.outcome.Outcome;
import conewise.analysis.sampling.Capture;
import conewise.station.answer.CommandFailure;
import conewise.station.answer.ExitCode;
import conewise.station.answer.ProgressLine;
import conewise.station.answer.Screen;
import conewise.station.files.BadFileException;
import conewise.station.files.CaptureTable;
import conewise.station.files.Existing;
import conewise.station.files.NewFile;
import conewise.station.files.Progress;
import conewise.station.lab.AnswerKey;
import conewise.station.lab.Assignments;
import conewise.station.lab.LabFolder;
import conewise.station.lab.Marking;
import conewise.station.lab.Student;
import conewise.station.lab.ToneSums;
import conewise.station.measuring.StopRequest;
import java.nio.file.Path;
import java.util.List;
import java.util.Optional;
import java.util.concurrent.Callable;
import picocli.CommandLine.Command;
import picocli.CommandLine.Mixin;
import picocli.CommandLine.Option;
import picocli.CommandLine.Parameters;
import picocli.CommandLine.ParentCommand;

/** {@code lab}: data sets for students, their key, and the marking of answers. */
@Command(
    name = "lab",
    mixinStandardHelpOptions = true,
    subcommands = {
      LabCommand.Make.class,
      LabCommand.KeyOf.class,
      LabCommand.MarkOf.class,
      LabCommand.Sums.class
    },
    description = {
      "Eight experiments for a teaching lab (docs/lab/README.md): data drawn from a student's"
          + " number, the key, and the marking of answers."
    })
final class LabCommand extends CommandGroup {
  /** {@code make}. */
  @Command(
      name = "make",
      mixinStandardHelpOptions = true,
      description = {
        "Writes a student's data sets: raw samples, impedance, a tone to work out by hand, a task"
            + " sheet for each experiment, and a sheet for the answers. No answers are in them."
      })
  static final class Make implements Callable<Integer> {
    @ParentCommand private LabCommand lab;

    @Mixin private LabStudentOptions student;

    @Option(
        names = "--out",
        paramLabel = "DIR",
        required = true,
        description = "The folder to write into; made if it is not there.")
    private Path out;

    @Option(
        names = "--key",
        paramLabel = "FILE",
        description = "Write the key here as well, for the instructor.")
    private Optional<Path> key = Optional.empty();

    @Override
    public Integer call() throws CommandFailure {
      Screen screen = lab.screen();
      Assignments assignments = Assignments.of(student.student(), student.experiments());
      List<Path> written;
      try (StopRequest stop = StopRequest.listen();
          ProgressLine progress = new ProgressLine(screen)) {
        written = LabFolder.write(assignments, out, screen, progress, stop);
      }
      if (key.isPresent()) {
        writeKey(key.get(), assignments);
      }
      screen.out().println(written.size() + " files written into " + out + ".");
      return ExitCode.PASS.number();
    }

    private static void writeKey(Path file, Assignments assignments) throws CommandFailure {
      try {
        String text = String.join("\n", AnswerKey.lines(assignments)) + "\n";
        NewFile.writeText(file, Existing.REFUSE, text);
      } catch (BadFileException bad) {
        throw new CommandFailure(ExitCode.CANNOT_WRITE, bad.getMessage(), bad);
      }
    }
  }

  /** {@code key}. */
  @Command(
      name = "key",
      mixinStandardHelpOptions = true,
      description =
          "Prints the right answers with their tolerances, and where known mistakes lead.")
  static final class KeyOf implements Callable<Integer> {
    @ParentCommand private LabCommand lab;

    @Mixin private LabStudentOptions student;

    @Option(names = "--answers", description = "As a sheet of answers, all of them right.")
    private boolean answers;

    @Override
    public Integer call() throws CommandFailure {
      Assignments assignments = Assignments.of(student.student(), student.experiments());
      if (answers) {
        lab.screen().out().print(AnswerKey.asAnswers(assignments));
      } else {
        AnswerKey.lines(assignments).forEach(lab.screen().out()::println);
      }
      return ExitCode.PASS.number();
    }
  }

  /** {@code mark}. */
  @Command(
      name = "mark",
      mixinStandardHelpOptions = true,
      description =
          "Holds a student's answers against the key: what is right, what is wrong, by how much and"
              + " by which mistake. Exit code 0 where all are right, 1 where not.")
  static final class MarkOf implements Callable<Integer> {
    @ParentCommand private LabCommand lab;

    @Parameters(paramLabel = "ANSWERS.csv", description = "Columns: question,value,unit.")
    private Path file;

    @Mixin private LabStudentOptions.WithoutExperiment student;

    @Mixin private AnswerOptions answer;

    @Override
    public Integer call() throws CommandFailure {
      Student whose = student.student();
      Marking marking;
      try {
        marking = Marking.of(file, whose);
      } catch (BadFileException bad) {
        throw new CommandFailure(ExitCode.BAD_DATA, bad.getMessage(), bad);
      }
      if (answer.json) {
        lab.screen().out().println(marking.json());
      } else {
        marking.lines().forEach(lab.screen().out()::println);
      }
      return marking.exitCode().number();
    }
  }

  /** {@code sums}. */
  @Command(
      name = "sums",
      mixinStandardHelpOptions = true,
      description =
          "Works out the impedance of one tone of a raw capture and shows every sum, to check a"
              + " spreadsheet by.")
  static final class Sums implements Callable<Integer> {
    @ParentCommand private LabCommand lab;

    @Parameters(paramLabel = "CAPTURE.csv", description = "Whole periods of the tone.")
    private Path file;

    @Option(
        names = "--hz",
        paramLabel = "F",
        description = "The tone; one period in the whole record where it is not given.")
    private Optional<Double> hz = Optional.empty();

    @Option(names = "--rows", description = "Show the products of every sample as well.")
    private boolean rows;

    @Override
    public Integer call() throws CommandFailure {
      Capture capture;
      try {
        capture = CaptureTable.read(file, Progress.UNHEARD);
      } catch (BadFileException bad) {
        throw new CommandFailure(ExitCode.BAD_DATA, bad.getMessage(), bad);
      }
      double record = capture.voltageVolt().length() * capture.voltageVolt().intervalSeconds();
      double tone = hz.orElse(1 / record);
      Outcome<ToneSums> sums = ToneSums.of(capture, tone);
      if (sums instanceof Outcome.Found<ToneSums> found) {
        if (rows) {
          ToneSums.rows(capture, tone).forEach(lab.screen().out()::println);
          lab.screen().out().println();
        }
        found.value().lines().forEach(lab.screen().out()::println);
        return ExitCode.PASS.number();
      }
      throw new CommandFailure(ExitCode.NOT_JUDGED, ((Outcome.NoResult<ToneSums>) sums).because());
    }
  }
}
