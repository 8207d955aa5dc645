package conewise.station.command;

import com.fasterxml.jackson.databind.node.ObjectNode;
import conewise.analysis.impedance.ImpedanceCurve;
import conewise.analysis.outcome.Outcome;
import conewise.analysis.outcome.Outcome.Found;
import conewise.analysis.outcome.Outcome.NoResult;
import conewise.analysis.plan.PlannedBox;
import conewise.station.answer.CommandFailure;
import conewise.station.answer.ExitCode;
import conewise.station.answer.JsonAnswer;
import conewise.station.answer.ProgressLine;
import conewise.station.answer.Screen;
import conewise.station.files.BadFileException;
import conewise.station.planfile.PlannedBoxFile;
import conewise.station.tone.ChosenTone;
import conewise.station.tone.ToneWave;
import java.nio.file.Path;
import java.util.List;
import java.util.Locale;
import java.util.Optional;
import java.util.concurrent.Callable;
import picocli.CommandLine.Command;
import picocli.CommandLine.Mixin;
import picocli.CommandLine.Option;
import picocli.CommandLine.ParentCommand;

/** {@code tone}: a sound file for tests by hand and ear. */
@Command(
    name = "tone",
    mixinStandardHelpOptions = true,
    description = {
      "Writes a tone as a sound file (WAV), for tests by hand and ear: at the fitted tuning for the"
          + " wind at a vent, or with --level-swapped for the level before and after one driver's"
          + " leads are swapped. What came of it goes to conewise judge (docs/tones.md)."
    },
    footer = {"", ToneCommand.CAUTION})
final class ToneCommand implements Callable<Integer> {
  static final String CAUTION =
      "Take the jig off first. Turn the amplifier all the way down, start the tone, and turn up"
          + " slowly, no further than needed: a low tone harms ears and drivers before it seems"
          + " loud. Keep hands off the cones and nothing near the vent. Stop at any rattle, smell"
          + " or warmth, and let coils cool between tries.";

  private static final double PERCENT = 100;

  @ParentCommand private RootCommand root;

  @Mixin private AnswerOptions answer;

  @Option(names = "--frequency", paramLabel = "HZ", description = "The tone's frequency.")
  private Optional<Double> frequencyHz = Optional.empty();

  @Option(
      names = "--fit",
      paramLabel = "FILE",
      description = "In its place: a sweep of the box, whose fitted tuning is taken.")
  private Optional<Path> sweep = Optional.empty();

  @Option(names = "--plan", paramLabel = "PLAN", description = "What that box should be.")
  private Optional<Path> plan = Optional.empty();

  @Option(
      names = "--vent",
      paramLabel = "NAME",
      description = "Which vent, where the plan has several.")
  private Optional<String> vent = Optional.empty();

  @Option(
      names = "--level-swapped",
      paramLabel = "DRIVER",
      description =
          "Instead of the tuning, the frequency above it at which one reversed driver takes most of"
              + " the sound away.")
  private Optional<String> swapped = Optional.empty();

  @Option(
      names = "--out",
      required = true,
      paramLabel = "FILE",
      description = "Where the tone is written (.wav).")
  private Path out;

  @Option(
      names = "--seconds",
      paramLabel = "S",
      defaultValue = "10",
      description = "How long, 1 to 60 (default ${DEFAULT-VALUE}).")
  private double seconds;

  @Option(
      names = "--level",
      paramLabel = "PERCENT",
      defaultValue = "25",
      description = "Amplitude, 0.1 to 90 % of full scale (default ${DEFAULT-VALUE}).")
  private double levelPercent;

  @Mixin private RecordingOptions recording;

  @Override
  public Integer call() throws CommandFailure {
    requireOneSource();
    requireSizes();
    try (ProgressLine progress = new ProgressLine(root.screen())) {
      ChosenTone tone =
          frequencyHz.isPresent()
              ? new ChosenTone(frequencyHz.get(), "The frequency that was asked for.")
              : fitted(progress);
      ToneWave wave = wave(tone);
      write(wave);
      progress.wipe();
      show(tone, wave);
    } catch (BadFileException bad) {
      throw new CommandFailure(ExitCode.BAD_DATA, bad.getMessage(), bad);
    }
    return ExitCode.PASS.number();
  }

  private void requireOneSource() throws CommandFailure {
    if (frequencyHz.isPresent() == sweep.isPresent()) {
      throw new CommandFailure(
          ExitCode.USAGE, "Give either --frequency, or --fit with --plan, and not both.");
    }
    boolean ofBox = plan.isPresent() || vent.isPresent() || swapped.isPresent();
    if (frequencyHz.isPresent() && ofBox) {
      throw new CommandFailure(
          ExitCode.USAGE,
          "--plan, --vent and --level-swapped choose a frequency from a box's sweep; leave them out"
              + " beside --frequency.");
    }
    if (sweep.isPresent() && plan.isEmpty()) {
      throw new CommandFailure(ExitCode.USAGE, "--fit needs --plan, to say what box it is.");
    }
    if (vent.isPresent() && swapped.isPresent()) {
      throw new CommandFailure(
          ExitCode.USAGE, "--vent is for the wind and --level-swapped for the level; give one.");
    }
  }

  private void requireSizes() throws CommandFailure {
    if (frequencyHz.isPresent()) {
      require("--frequency", frequencyHz.get(), ToneWave.LOWEST_HZ, ToneWave.HIGHEST_HZ, "Hz");
    }
    require("--seconds", seconds, ToneWave.SHORTEST, ToneWave.LONGEST, "s");
    require("--level", levelPercent, 0.1, PERCENT * ToneWave.MOST, "%");
  }

  private static void require(String option, double value, double low, double high, String unit)
      throws CommandFailure {
    if (!(value >= low && value <= high)) {
      throw new CommandFailure(
          ExitCode.USAGE,
          String.format(
              Locale.ROOT,
              "%s is %s; it must be from %s to %s %s.",
              option,
              value,
              low,
              high,
              unit));
    }
  }

  private ChosenTone fitted(ProgressLine progress) throws CommandFailure, BadFileException {
    PlannedBox box = PlannedBoxFile.read(plan.orElseThrow());
    Optional<String> driver = swapped.isPresent() ? Optional.of(driver(box)) : Optional.empty();
    String name = driver.isPresent() ? "" : vent(box);
    ImpedanceCurve curve = MeasuredCurves.read(sweep.orElseThrow(), recording, progress);
    progress.show(0.9, "fitting");
    Outcome<ChosenTone> tone =
        driver.isPresent()
            ? ChosenTone.forSwap(box, curve, driver.get())
            : ChosenTone.atTuning(box, curve, name);
    if (tone instanceof NoResult<ChosenTone> none) {
      throw new CommandFailure(
          ExitCode.NOT_JUDGED, "No tone from " + sweep.get() + ": " + none.because() + ".");
    }
    return ((Found<ChosenTone>) tone).value();
  }

  private String vent(PlannedBox box) throws CommandFailure {
    List<String> vents = box.vents().stream().map(PlannedBox.PlannedVent::name).toList();
    if (vents.isEmpty()) {
      throw new CommandFailure(
          ExitCode.USAGE,
          "The plan \"" + box.name() + "\" has no vent to feel a wind at; use --frequency.");
    }
    if (vent.isEmpty() && vents.size() > 1) {
      throw new CommandFailure(
          ExitCode.USAGE,
          "The plan has several vents; say which with --vent: " + String.join(", ", vents) + ".");
    }
    return oneOf("--vent", vent.orElse(vents.get(0)), vents);
  }

  private String driver(PlannedBox box) throws CommandFailure {
    List<String> drivers = box.drivers().stream().map(PlannedBox.PlacedDriver::name).toList();
    if (drivers.size() == 1) {
      throw new CommandFailure(
          ExitCode.USAGE,
          "The plan has one driver, which sounds the same either way round; make the pop test"
              + " instead.");
    }
    return oneOf("--level-swapped", swapped.orElseThrow(), drivers);
  }

  private static String oneOf(String option, String name, List<String> names)
      throws CommandFailure {
    if (!names.contains(name)) {
      throw new CommandFailure(
          ExitCode.USAGE,
          option
              + " is \""
              + name
              + "\", which the plan does not have; it has "
              + String.join(", ", names)
              + ".");
    }
    return name;
  }

  private ToneWave wave(ChosenTone tone) throws CommandFailure {
    try {
      return new ToneWave(tone.frequencyHz(), seconds, levelPercent / PERCENT);
    } catch (IllegalArgumentException absurd) {
      throw new CommandFailure(
          ExitCode.NOT_JUDGED, "No tone was written: " + absurd.getMessage() + ".", absurd);
    }
  }

  private void write(ToneWave wave) throws CommandFailure {
    try {
      wave.write(out);
    } catch (BadFileException bad) {
      throw new CommandFailure(ExitCode.CANNOT_WRITE, bad.getMessage(), bad);
    }
  }

  private void show(ChosenTone tone, ToneWave wave) {
    Screen screen = root.screen();
    if (answer.json) {
      ObjectNode json = JsonAnswer.of("tone", ExitCode.PASS);
      json.put("frequency_hz", wave.frequencyHz())
          .put("because", tone.because())
          .put("seconds", wave.seconds())
          .put("level_percent", levelPercent)
          .put("file", out.toString())
          .put("caution", CAUTION);
      screen.out().println(json);
      return;
    }
    screen
        .out()
        .printf(
            Locale.ROOT,
            "A tone of %.2f Hz, %s s at %s %% of full scale, is in %s%n%s%n%n%s%n",
            wave.frequencyHz(),
            seconds,
            levelPercent,
            out,
            tone.because(),
            CAUTION);
  }
}
