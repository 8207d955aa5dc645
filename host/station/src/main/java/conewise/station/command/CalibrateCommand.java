package conewise.station.command;

import com.fasterxml.jackson.databind.node.ObjectNode;
import conewise.analysis.impedance.ImpedanceCurve;
import conewise.jig.client.JigClient;
import conewise.jig.sweep.Calibration;
import conewise.protocol.JigIdentity;
import conewise.station.answer.CommandFailure;
import conewise.station.answer.ExitCode;
import conewise.station.answer.JsonAnswer;
import conewise.station.answer.ProgressLine;
import conewise.station.answer.Screen;
import conewise.station.calibrating.Calibrating;
import conewise.station.calibrating.CalibrationFile;
import conewise.station.calibrating.PersonBench;
import conewise.station.calibrating.StoredCalibration;
import conewise.station.calibrating.VirtualBench;
import conewise.station.files.BadFileException;
import conewise.station.files.Existing;
import conewise.station.measuring.JigChoice;
import conewise.station.measuring.StopRequest;
import java.io.BufferedReader;
import java.io.IOException;
import java.io.InputStreamReader;
import java.io.UncheckedIOException;
import java.nio.charset.Charset;
import java.nio.file.Files;
import java.nio.file.Path;
import java.time.ZoneId;
import java.time.ZonedDateTime;
import java.time.format.DateTimeFormatter;
import java.util.Locale;
import java.util.concurrent.Callable;
import picocli.CommandLine.Command;
import picocli.CommandLine.Mixin;
import picocli.CommandLine.Option;
import picocli.CommandLine.ParentCommand;

/** {@code calibrate}: open clips, a short and a known resistor, kept in a file. */
@Command(
    name = "calibrate",
    mixinStandardHelpOptions = true,
    description = "Calibrates a jig by open clips, a short and a known resistor.",
    footer = "Only the resistor meets the jig here: no box, no amplifier.")
final class CalibrateCommand implements Callable<Integer> {
  private static final DateTimeFormatter ID =
      DateTimeFormatter.ofPattern("'CAL-'yyMMdd-HHmm", Locale.ROOT);

  @ParentCommand private RootCommand root;

  @Mixin private AnswerOptions answer;

  @Mixin private JigOptions jig;

  @Option(
      names = "--resistor",
      required = true,
      paramLabel = "OHM",
      description = "What the known resistor is, 1 to 200 ohm; about 10 is best.")
  private double resistorOhm;

  @Option(
      names = "--tolerance",
      required = true,
      paramLabel = "PERCENT",
      description = "Its tolerance, 0 to 20.")
  private double tolerancePercent;

  @Option(
      names = "--out",
      paramLabel = "FILE",
      defaultValue = "conewise-calibration.json",
      description = "Where the calibration goes (default ${DEFAULT-VALUE}).")
  private Path out;

  @Option(names = "--overwrite", description = "Replace a file that is there already.")
  private boolean overwrite;

  @Override
  public Integer call() throws CommandFailure {
    requireSense();
    JigChoice choice = jig.choice();
    StoredCalibration stored;
    try (ProgressLine progress = new ProgressLine(root.screen());
        StopRequest stop = StopRequest.listen();
        JigClient client = choice.connect(progress)) {
      Calibrating.Bench bench =
          choice instanceof JigChoice.Virtual virtual
              ? new VirtualBench(virtual.world(), resistorOhm, progress, stop)
              : new PersonBench(client, root.screen().err(), pressed(), progress, stop);
      stored = calibrate(bench, client.identity());
      progress.wipe();
    }
    try {
      CalibrationFile.write(out, stored, overwrite ? Existing.REPLACE : Existing.REFUSE);
    } catch (BadFileException bad) {
      throw new CommandFailure(ExitCode.CANNOT_WRITE, bad.getMessage(), bad);
    }
    show(stored.calibration());
    return ExitCode.PASS.number();
  }

  private void requireSense() throws CommandFailure {
    if (!(resistorOhm >= 1 && resistorOhm <= 200)) {
      throw new CommandFailure(
          ExitCode.USAGE, "--resistor is " + resistorOhm + " ohm; it must be from 1 to 200.");
    }
    if (!(tolerancePercent >= 0 && tolerancePercent <= 20)) {
      throw new CommandFailure(
          ExitCode.USAGE, "--tolerance is " + tolerancePercent + " %; it must be from 0 to 20.");
    }
    if (Files.exists(out) && !overwrite) {
      throw new CommandFailure(
          ExitCode.CANNOT_WRITE,
          out + " is there already; give another name by --out, or --overwrite.");
    }
  }

  private StoredCalibration calibrate(Calibrating.Bench bench, JigIdentity identity)
      throws CommandFailure {
    ZonedDateTime now = ZonedDateTime.now(ZoneId.systemDefault());
    double tolerance = tolerancePercent / 100;
    Calibration calibration = new Calibrating(bench, resistorOhm, tolerance).run(ID.format(now));
    return new StoredCalibration(calibration, now, tolerance, identity);
  }

  private static java.util.function.BooleanSupplier pressed() {
    BufferedReader reader =
        new BufferedReader(new InputStreamReader(System.in, Charset.defaultCharset()));
    return () -> {
      try {
        return reader.readLine() != null;
      } catch (IOException e) {
        throw new UncheckedIOException("the keyboard could not be read", e);
      }
    };
  }

  private static double middle(ImpedanceCurve curve) {
    return curve.points().get(curve.points().size() / 2).resistanceOhm();
  }

  private void show(Calibration calibration) {
    Screen screen = root.screen();
    double leadOhm = middle(calibration.correction().shorted());
    double scale =
        (middle(calibration.correction().standard()) - leadOhm)
            / calibration.correction().standardOhm();
    double uncertaintyPercent =
        100
            * calibration.correction().standardUncertaintyOhm()
            / calibration.correction().standardOhm();
    if (answer.json) {
      ObjectNode object =
          JsonAnswer.of("calibrate", ExitCode.PASS)
              .put("calibration", calibration.id())
              .put("resistor_ohm", resistorOhm)
              .put("tolerance_percent", tolerancePercent)
              .put("lead_ohm", leadOhm)
              .put("scale_read", scale)
              .put("scale_standard_uncertainty", uncertaintyPercent / 100)
              .put("file", out.toString());
      screen.out().println(object);
      return;
    }
    screen.out().println("Calibrated as " + calibration.id() + ".");
    screen
        .out()
        .println(
            String.format(
                Locale.ROOT,
                "The resistor leaves the scale of impedance a standard uncertainty of %.2g %%.",
                uncertaintyPercent));
    screen
        .out()
        .println(
            String.format(
                Locale.ROOT,
                "Clips and leads read %.3f ohm; beyond them the uncalibrated jig reads %.3f of the"
                    + " true value.",
                leadOhm,
                scale));
    screen.out().println("Written: " + out);
    screen.out().println("Use it with: --calibration " + out);
  }
}
