package conewise.station.command;

import conewise.station.answer.CommandFailure;
import conewise.station.answer.ExitCode;
import conewise.station.card.PlainText;
import conewise.station.resistor.PreferredValues;
import conewise.station.resistor.ResistorMark;
import java.util.Optional;
import picocli.CommandLine.Option;

/** A resistor whose value is known. */
final class ResistorOptions {
  private static final double LEAST_OHM = 1;
  private static final double MOST_OHM = 200;
  private static final double MOST_PERCENT = 20;

  @Option(
      names = "--resistor",
      paramLabel = "VALUE",
      description = {
        "What the known resistor is, 1 to 200 ohm; about 10 is best.",
        "In ohm (10), by its letters (4R7) or its colours (brown-black-black-gold)."
      })
  private Optional<String> mark = Optional.empty();

  @Option(
      names = "--tolerance",
      paramLabel = "PERCENT",
      description = "Its tolerance, 0 to 20; not needed where the letters or colours say it.")
  private Optional<Double> tolerancePercent = Optional.empty();

  /**
   * A resistor.
   *
   * @param doubt why none of this value is sold with this tolerance, if so
   */
  record Known(double ohm, double toleranceFraction, Optional<String> doubt) {}

  /** Whether one was named. */
  boolean given() {
    return mark.isPresent();
  }

  /** What was named. */
  Known read() throws CommandFailure {
    ResistorMark read = mark();
    double ohm = read.ohm();
    if (!(ohm >= LEAST_OHM && ohm <= MOST_OHM)) {
      throw new CommandFailure(
          ExitCode.USAGE,
          "--resistor is "
              + PlainText.tame(mark.get())
              + ", "
              + ohm
              + " ohm; it must be from 1 to 200.");
    }
    double fraction = tolerance(read);
    return new Known(
        ohm, fraction, fraction > 0 ? PreferredValues.doubt(ohm, fraction) : Optional.empty());
  }

  private ResistorMark mark() throws CommandFailure {
    if (mark.isEmpty()) {
      throw new CommandFailure(
          ExitCode.USAGE, "--resistor is needed: what the known resistor is, such as 10 or 4R7.");
    }
    try {
      return ResistorMark.of(mark.get());
    } catch (IllegalArgumentException wrong) {
      throw new CommandFailure(
          ExitCode.USAGE,
          "--resistor is \"" + PlainText.tame(mark.get()) + "\": " + wrong.getMessage() + ".",
          wrong);
    }
  }

  /** What is typed comes before what is printed: a measured resistor is known better. */
  private double tolerance(ResistorMark read) throws CommandFailure {
    if (tolerancePercent.isEmpty()) {
      return read.toleranceFraction()
          .orElseThrow(
              () ->
                  new CommandFailure(
                      ExitCode.USAGE,
                      "--tolerance is needed: the resistor's, in per cent, 0 to 20. Gold means 5,"
                          + " brown 1."));
    }
    double percent = tolerancePercent.get();
    if (!(percent >= 0 && percent <= MOST_PERCENT)) {
      throw new CommandFailure(
          ExitCode.USAGE, "--tolerance is " + percent + " %; it must be from 0 to 20.");
    }
    return percent / 100;
  }
}
