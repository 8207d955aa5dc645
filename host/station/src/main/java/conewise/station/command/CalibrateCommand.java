package conewise.station.command;

import conewise.jig.client.JigClient;
import conewise.jig.client.JigFaultException;
import conewise.jig.sweep.Calibration;
import conewise.protocol.JigIdentity;
import conewise.station.answer.CommandFailure;
import conewise.station.answer.ExitCode;
import conewise.station.answer.ProgressLine;
import conewise.station.calibrating.Calibrating;
import conewise.station.calibrating.CalibrationFile;
import conewise.station.calibrating.Clips;
import conewise.station.calibrating.PersonClips;
import conewise.station.calibrating.StoredCalibration;
import conewise.station.calibrating.VirtualClips;
import conewise.station.files.BadFileException;
import conewise.station.files.Existing;
import conewise.station.measuring.JigChoice;
import conewise.station.measuring.StopRequest;
import java.nio.file.Files;
import java.nio.file.Path;
import java.time.ZoneId;
import java.time.ZonedDateTime;
import java.time.format.DateTimeFormatter;
import java.util.ArrayList;
import java.util.List;
import java.util.Locale;
import java.util.Optional;
import java.util.concurrent.Callable;
import picocli.CommandLine.Command;
import picocli.CommandLine.Mixin;
import picocli.CommandLine.Option;
import picocli.CommandLine.ParentCommand;

/** {@code calibrate}: open clips, a short and a known resistor, kept by the jig's serial. */
@Command(
    name = "calibrate",
    mixinStandardHelpOptions = true,
    description = {
      "Calibrates a jig by open clips, a short and a known resistor.",
      "What comes of it is kept by the jig's serial number, and sweep and check find it there."
    },
    footer = "Only the resistor meets the jig here: no box, no amplifier.")
final class CalibrateCommand implements Callable<Integer> {
  private static final DateTimeFormatter ID =
      DateTimeFormatter.ofPattern("'CAL-'yyMMddHHmmss", Locale.ROOT);

  @ParentCommand private RootCommand root;

  @Mixin private AnswerOptions answer;

  @Mixin private JigOptions jig;

  @Mixin private ResistorOptions resistor;

  @Mixin private TemperatureOption temperature;

  @Mixin private CalibrationShelfOption shelf;

  @Option(
      names = "--out",
      paramLabel = "FILE",
      description = "Write the calibration here instead, for --calibration FILE.")
  private Optional<Path> out = Optional.empty();

  @Option(names = "--overwrite", description = "Replace the file of --out that is there already.")
  private boolean overwrite;

  @Override
  public Integer call() throws CommandFailure {
    ResistorOptions.Known known = resistor.read();
    Optional<Double> celsius = temperature.read();
    requireFree();
    JigChoice choice = jig.choice();
    List<String> notes = new ArrayList<>();
    known.doubt().ifPresent(notes::add);
    StoredCalibration stored;
    Path file;
    try (ProgressLine progress = new ProgressLine(root.screen());
        StopRequest stop = StopRequest.listen();
        JigClient client = choice.connect(progress)) {
      // Said before anybody stands up: a misread resistor costs three steps.
      notes.forEach(root.screen().err()::println);
      Clips clips =
          choice instanceof JigChoice.Virtual virtual
              ? new VirtualClips(virtual.world(), known.ohm(), progress)
              : new PersonClips(client, root.screen().err(), Keyboard.enter(), progress);
      ZonedDateTime now = ZonedDateTime.now(ZoneId.systemDefault());
      Calibration calibration =
          new Calibrating(clips, known.ohm(), known.toleranceFraction(), progress, stop)
              .run(ID.format(now));
      stored =
          new StoredCalibration(
              calibration, now, known.toleranceFraction(), client.identity(), celsius);
      file = keep(stored);
      nameInJig(client, calibration.id()).ifPresent(notes::add);
      progress.wipe();
    }
    withoutSerial(stored.jig()).ifPresent(notes::add);
    new CalibrationAnswer(stored, file, out.isPresent(), notes).show(root.screen(), answer.json);
    return ExitCode.PASS.number();
  }

  private void requireFree() throws CommandFailure {
    if (out.isEmpty() && overwrite) {
      throw new CommandFailure(
          ExitCode.USAGE, "--overwrite goes with --out; what is kept by serial is never replaced.");
    }
    if (out.isPresent() && Files.exists(out.get()) && !overwrite) {
      throw new CommandFailure(
          ExitCode.CANNOT_WRITE,
          out.get() + " is there already; give another name by --out, or --overwrite.");
    }
  }

  private Path keep(StoredCalibration stored) throws CommandFailure {
    try {
      if (out.isEmpty()) {
        return shelf.shelf().keep(stored);
      }
      CalibrationFile.write(out.get(), stored, overwrite ? Existing.REPLACE : Existing.REFUSE);
      return out.get();
    } catch (BadFileException bad) {
      throw new CommandFailure(ExitCode.CANNOT_WRITE, bad.getMessage(), bad);
    }
  }

  /** A jig that knows its last calibration lets no older one be used by mistake. */
  private static Optional<String> nameInJig(JigClient client, String id) {
    try {
      client.stop();
      client.storeCalibration(id);
      return Optional.empty();
    } catch (JigFaultException failed) {
      return Optional.of(
          "The jig itself could not keep the calibration's name ("
              + failed.fault().sentence()
              + "), so it cannot warn of an older one.");
    }
  }

  private static Optional<String> withoutSerial(JigIdentity jig) {
    return jig.jig().serial().isPresent()
        ? Optional.empty()
        : Optional.of(
            "This jig has no serial number, so its calibrations cannot be told from another's; give"
                + " it one with: conewise identify --give-serial S");
  }
}
