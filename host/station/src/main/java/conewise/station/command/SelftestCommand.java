package conewise.station.command;

import conewise.analysis.bench.BenchFinding;
import conewise.analysis.impedance.ImpedanceCurve;
import conewise.analysis.outcome.Outcome;
import conewise.jig.client.JigClient;
import conewise.jig.client.JigFaultException;
import conewise.jig.sweep.OpenClipsProof;
import conewise.jig.sweep.SweepResult;
import conewise.simulator.world.World;
import conewise.station.answer.CommandFailure;
import conewise.station.answer.ExitCode;
import conewise.station.answer.ProgressLine;
import conewise.station.calibrating.Calibrating;
import conewise.station.calibrating.CalibrationStep;
import conewise.station.calibrating.Clips;
import conewise.station.calibrating.PersonClips;
import conewise.station.calibrating.ShopRule;
import conewise.station.calibrating.VirtualClips;
import conewise.station.files.BadFileException;
import conewise.station.measuring.JigChoice;
import conewise.station.measuring.StopRequest;
import conewise.station.measuring.SweepRun;
import conewise.station.resistor.ResistorMark;
import conewise.station.selftest.CheckLog;
import conewise.station.selftest.CheckReading;
import conewise.station.selftest.Drift;
import java.time.ZoneId;
import java.time.ZonedDateTime;
import java.util.List;
import java.util.Locale;
import java.util.Optional;
import java.util.concurrent.Callable;
import picocli.CommandLine.Command;
import picocli.CommandLine.Mixin;
import picocli.CommandLine.Option;
import picocli.CommandLine.ParentCommand;

/** {@code selftest}: what a jig proves with open clips, and with a check resistor. */
@Command(
    name = "selftest",
    mixinStandardHelpOptions = true,
    description = {
      "Tests a jig with its clips open, then with a check resistor if one is named.",
      "The resistor's reading is kept, and held against its value and its first reading."
    },
    footer = "Only the resistor meets the jig here: no box, no amplifier.")
final class SelftestCommand implements Callable<Integer> {
  private static final int TRIES = 3;

  @ParentCommand private RootCommand root;

  @Mixin private AnswerOptions answer;

  @Mixin private JigOptions jig;

  @Mixin private ResistorOptions resistor;

  @Option(
      names = "--name",
      paramLabel = "NAME",
      description = "What the check resistor goes by (default: its value).")
  private Optional<String> name = Optional.empty();

  @Option(
      names = "--limit",
      paramLabel = "PERCENT",
      description = "How far its reading may deviate, 0.1 to 20 (default ${DEFAULT-VALUE}).")
  private double limitPercent = 1;

  @Mixin private TemperatureOption temperature;

  @Mixin private CalibrationOptions calibration;

  @Override
  public Integer call() throws CommandFailure {
    Optional<ResistorOptions.Known> known =
        resistor.given() ? Optional.of(resistor.read()) : Optional.empty();
    requireSense(known);
    Optional<Double> celsius = temperature.read();
    CalibrationOptions.Asked asked = calibration.read();
    JigChoice choice = jig.choice();
    CheckLog.Content kept;
    CheckLog log;
    SelftestAnswer said;
    try (ProgressLine progress = new ProgressLine(root.screen());
        StopRequest stop = StopRequest.listen();
        JigClient client = choice.connect(progress)) {
      log = CheckLog.in(calibration.shelf().folderOf(client.identity()));
      kept = read(log);
      Clips clips =
          choice instanceof JigChoice.Virtual virtual
              ? new VirtualClips(
                  anotherTime(virtual.world(), kept),
                  known.map(ResistorOptions.Known::ohm).orElse(10.0),
                  progress)
              : new PersonClips(client, root.screen().err(), Keyboard.enter(), progress);
      ZonedDateTime now = ZonedDateTime.now(ZoneId.systemDefault());
      CalibrationOptions.Chosen chosen = asked.on(client.identity(), ShopRule.none(), now);
      OpenClipsProof.Report open = open(clips, progress, stop);
      said = SelftestAnswer.of(client.identity(), chosen.words(), open);
      if (known.isPresent() && said.openClipsAreRight()) {
        SweepResult result = swept(clips, known.get().ohm(), chosen, progress, stop);
        CheckReading reading = reading(known.get(), result, chosen, now, celsius);
        said = said.with(compared(log, kept, reading));
      }
      progress.wipe();
    }
    said.show(root.screen(), answer.json);
    return said.exit().number();
  }

  private void requireSense(Optional<ResistorOptions.Known> known) throws CommandFailure {
    if (!(limitPercent >= 0.1 && limitPercent <= 20)) {
      throw new CommandFailure(
          ExitCode.USAGE, "--limit is " + limitPercent + " %; it must be from 0.1 to 20.");
    }
    if (known.isEmpty() && name.isPresent()) {
      throw new CommandFailure(
          ExitCode.USAGE, "--name is for a check resistor; give --resistor and --tolerance too.");
    }
    if (name.isPresent() && !name.get().matches("[A-Za-z0-9][A-Za-z0-9 .-]{0,31}")) {
      throw new CommandFailure(
          ExitCode.USAGE,
          "--name must be 1 to 32 letters, digits, spaces, points or hyphens, a letter or digit"
              + " first.");
    }
  }

  private static OpenClipsProof.Report open(Clips clips, ProgressLine progress, StopRequest stop)
      throws CommandFailure {
    return clips.then(
        CalibrationStep.OPEN.instruction(0),
        CalibrationStep.OPEN,
        client -> {
          try {
            return new OpenClipsProof().run(client, SweepRun.following(progress, stop));
          } catch (JigFaultException failed) {
            throw new CommandFailure(
                ExitCode.NOT_JUDGED,
                failed.fault().sentence() + " " + failed.fault().nextStep(),
                failed);
          }
        });
  }

  private static SweepResult swept(
      Clips clips,
      double ohm,
      CalibrationOptions.Chosen chosen,
      ProgressLine progress,
      StopRequest stop)
      throws CommandFailure {
    String instruction =
        String.format(Locale.ROOT, "Put the check resistor of %.4g ohm between the clips.", ohm);
    for (int attempt = 1; ; attempt++) {
      SweepResult result =
          clips.then(
              instruction,
              CalibrationStep.RESISTOR,
              client ->
                  Calibrating.sweep(client, chosen.settings().listeningOnly(), progress, stop));
      Optional<String> wrong =
          CalibrationStep.RESISTOR.wrong(result, ohm).or(() -> conflict(result));
      if (wrong.isEmpty()) {
        return result;
      }
      if (attempt == TRIES) {
        throw new CommandFailure(
            ExitCode.NOT_JUDGED, "The check resistor was not read. " + wrong.get());
      }
      clips.refused(wrong.get());
    }
  }

  /** Such as a calibration that is not the jig's last. */
  private static Optional<String> conflict(SweepResult result) {
    return result.measurement().findings().stream()
        .filter(finding -> finding.kind() == BenchFinding.Kind.CALIBRATION && finding.spoils())
        .findFirst()
        .map(finding -> finding.sentence() + " " + finding.nextStep());
  }

  private CheckReading reading(
      ResistorOptions.Known known,
      SweepResult result,
      CalibrationOptions.Chosen chosen,
      ZonedDateTime now,
      Optional<Double> celsius)
      throws CommandFailure {
    if (!(result.measurement().curve() instanceof Outcome.Found<ImpedanceCurve> found)) {
      throw new CommandFailure(
          ExitCode.NOT_JUDGED,
          "The check resistor was not read: "
              + ((Outcome.NoResult<ImpedanceCurve>) result.measurement().curve()).because());
    }
    CheckReading.Mean mean =
        CheckReading.Mean.of(found.value())
            .orElseThrow(
                () ->
                    new CommandFailure(
                        ExitCode.NOT_JUDGED,
                        "The check resistor was not read: fewer than three frequencies from 20 to"
                            + " 200 Hz gave a result. Sweep again."));
    return new CheckReading(
        now,
        name.orElseGet(() -> ResistorMark.plain(known.ohm()) + " ohm"),
        known.ohm(),
        known.toleranceFraction(),
        mean.ohm(),
        mean.noiseOhm(),
        found.value().scaleUncertainty(),
        chosen.stored().map(stored -> stored.calibration().id()),
        celsius);
  }

  private static CheckLog.Content read(CheckLog log) throws CommandFailure {
    try {
      return log.read();
    } catch (BadFileException bad) {
      throw new CommandFailure(ExitCode.BAD_DATA, bad.getMessage(), bad);
    }
  }

  /** The noise of a virtual jig is another one each time, as a real one's is. */
  private static World anotherTime(World world, CheckLog.Content kept) {
    return world.withSeed(world.seed() + 1 + kept.readings().size());
  }

  /** Kept before it is shown. */
  private SelftestAnswer.Compared compared(
      CheckLog log, CheckLog.Content kept, CheckReading reading) throws CommandFailure {
    List<CheckReading> earlier = Drift.sameResistor(reading, kept.readings());
    Drift drift = Drift.of(reading, earlier, limitPercent / 100);
    try {
      log.append(reading);
      return new SelftestAnswer.Compared(reading, earlier, drift, log.file(), kept.damagedLines());
    } catch (BadFileException bad) {
      throw new CommandFailure(ExitCode.CANNOT_WRITE, bad.getMessage(), bad);
    }
  }
}
