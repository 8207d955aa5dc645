package conewise.station.command;

import com.fasterxml.jackson.databind.node.ObjectNode;
import conewise.analysis.fit.BoxFit;
import conewise.analysis.outcome.Outcome;
import conewise.analysis.outcome.Outcome.Found;
import conewise.analysis.outcome.Outcome.NoResult;
import conewise.analysis.plan.PlannedBox;
import conewise.station.answer.CommandFailure;
import conewise.station.answer.ExitCode;
import conewise.station.answer.ProgressLine;
import conewise.station.answer.Screen;
import conewise.station.box.BoxAnswer;
import conewise.station.box.BoxJson;
import conewise.station.box.BoxSweep;
import conewise.station.box.BoxText;
import conewise.station.driver.BareDriver;
import conewise.station.driver.DriverJson;
import conewise.station.driver.DriverSweep;
import conewise.station.driver.DriverText;
import conewise.station.driver.KnownOfDriver;
import conewise.station.files.BadFileException;
import conewise.station.planfile.PlannedBoxFile;
import conewise.station.report.FitPage;
import java.nio.file.Path;
import java.util.ArrayList;
import java.util.List;
import java.util.concurrent.Callable;
import picocli.CommandLine.Command;
import picocli.CommandLine.Mixin;
import picocli.CommandLine.Parameters;
import picocli.CommandLine.ParentCommand;

/** {@code fit}: the parameters of a bare driver, or of a planned box, from its curves. */
@Command(
    name = "fit",
    mixinStandardHelpOptions = true,
    description = {
      "Fits the parameters of a bare driver to its curves, or with --plan those of a box; all"
          + " sweeps together.",
      "Bare driver: free air alone gives fs, Q and Re; a known mass on the cone gives Mms, Cms, Rms"
          + " and Bl; a closed box gives Vas; both give the cone's area as well.",
      "Box: the fitted tuning, what its drivers are in it, and what one sweep leaves open; a"
          + " second sweep of the same box in another state tells more."
    },
    footer = {
      "",
      "Take driver or box off every amplifier before the clips go on, and keep hands off the cone"
          + " while it is swept. Hang or hold a bare driver firmly, clear of every surface. Use a"
          + " soft, sticky mass evenly about the dust cap, about as heavy as the moving parts,"
          + " nothing of iron: the magnet pulls it in. See docs/driver.md."
    })
final class FitCommand implements Callable<Integer> {
  @ParentCommand private RootCommand root;

  @Mixin private AnswerOptions answer;

  @Parameters(
      paramLabel = "FILE",
      description =
          "The driver in free air, or the box as it came: impedance table (.csv), Touchstone (.s1p)"
              + " or recording (.csv, .wav).")
  private Path file;

  @Mixin private DriverFitOptions ofDriver;

  @Mixin private BoxFitOptions ofBox;

  @Mixin private FitFiles files;

  @Mixin private RecordingOptions recording;

  @Override
  public Integer call() throws CommandFailure {
    if (ofBox.plan().isPresent() && ofDriver.given()) {
      throw new CommandFailure(
          ExitCode.USAGE,
          "--plan is for a box; --with-mass, --in-box, --area, --moving-mass and --coils are for a"
              + " bare driver: leave out one or the other.");
    }
    if (ofBox.plan().isEmpty() && ofBox.hasSecondSweeps()) {
      throw new CommandFailure(
          ExitCode.USAGE,
          "--vent-closed, --leads-swapped and --unplugged are of a box; say which with --plan.");
    }
    try {
      return ofBox.plan().isPresent() ? box(ofBox.plan().get()) : driver();
    } catch (BadFileException bad) {
      throw new CommandFailure(ExitCode.BAD_DATA, bad.getMessage(), bad);
    }
  }

  private int driver() throws CommandFailure, BadFileException {
    KnownOfDriver known = ofDriver.known();
    List<DriverFitOptions.Named> named = ofDriver.named(file);
    files.requireApart(named.stream().map(DriverFitOptions.Named::file).toList());
    Outcome<BareDriver> outcome;
    try (ProgressLine progress = new ProgressLine(root.screen())) {
      List<DriverSweep> sweeps = new ArrayList<>();
      for (DriverFitOptions.Named each : named) {
        sweeps.add(
            new DriverSweep(
                each.file(), each.state(), MeasuredCurves.read(each.file(), recording, progress)));
      }
      progress.show(0.9, "fitting");
      outcome = BareDriver.of(sweeps, known);
    }
    BareDriver driver = found(outcome);
    String title = "Bare driver, " + file.getFileName();
    List<FitFiles.Written> written =
        files.write(title, driver.fit(), () -> FitPage.write(title, driver));
    show(DriverText.write(driver), DriverJson.write(driver), written);
    return ExitCode.PASS.number();
  }

  private int box(Path plan) throws CommandFailure, BadFileException {
    PlannedBox box = PlannedBoxFile.read(plan);
    List<SecondSweepOptions.Named> named = ofBox.named(file, box);
    List<Path> inputs =
        new ArrayList<>(named.stream().map(SecondSweepOptions.Named::file).toList());
    inputs.add(plan);
    files.requireApart(inputs);
    Outcome<BoxAnswer> outcome;
    try (ProgressLine progress = new ProgressLine(root.screen())) {
      List<BoxSweep> sweeps = new ArrayList<>();
      for (SecondSweepOptions.Named each : named) {
        sweeps.add(
            new BoxSweep(
                each.file(), each.state(), MeasuredCurves.read(each.file(), recording, progress)));
      }
      progress.show(0.9, "fitting");
      outcome = BoxAnswer.of(box, sweeps);
    } catch (IllegalArgumentException absurd) {
      throw new CommandFailure(
          ExitCode.USAGE, DriverFitOptions.capital(absurd.getMessage()) + ".", absurd);
    }
    BoxAnswer fitted = found(outcome);
    BoxFit fit = fitted.fitted().fit();
    List<FitFiles.Written> written = files.write(box.name(), fit, () -> FitPage.write(fitted));
    show(BoxText.write(fitted), BoxJson.write(fitted), written);
    return ExitCode.PASS.number();
  }

  private static <T> T found(Outcome<T> outcome) throws CommandFailure {
    if (outcome instanceof NoResult<T> none) {
      throw new CommandFailure(ExitCode.NOT_JUDGED, none.because());
    }
    return ((Found<T>) outcome).value();
  }

  private void show(List<String> text, ObjectNode json, List<FitFiles.Written> written) {
    Screen screen = root.screen();
    if (answer.json) {
      written.forEach(each -> each.addTo(json));
      screen.out().println(json);
      return;
    }
    text.forEach(screen.out()::println);
    if (!written.isEmpty()) {
      screen.out().println();
      written.forEach(each -> screen.out().println(each.sentence()));
    }
  }
}
