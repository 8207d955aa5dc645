package conewise.station.command;

import conewise.analysis.judgement.Verdict;
import conewise.jig.sweep.SweepSettings;
import conewise.protocol.JigIdentity;
import conewise.station.answer.CommandFailure;
import conewise.station.answer.ExitCode;
import conewise.station.calibrating.CalibrationFile;
import conewise.station.calibrating.CalibrationShelf;
import conewise.station.calibrating.CalibrationStanding;
import conewise.station.calibrating.ShopRule;
import conewise.station.calibrating.StoredCalibration;
import conewise.station.files.BadFileException;
import conewise.station.selftest.CheckLog;
import conewise.station.selftest.DriftWatch;
import java.nio.file.Path;
import java.time.ZonedDateTime;
import java.util.List;
import java.util.Optional;
import picocli.CommandLine.ArgGroup;
import picocli.CommandLine.Mixin;
import picocli.CommandLine.Option;

/** With which calibration a command sweeps; without any of these, with the jig's own. */
final class CalibrationOptions {
  @ArgGroup(exclusive = true)
  private Which which = new Which();

  @Mixin private CalibrationShelfOption place;

  @Option(
      names = "--calibration-days",
      paramLabel = "DAYS",
      description = "Older than this a calibration is stale (default ${DEFAULT-VALUE}).")
  private int days = StoredCalibration.USUAL_DAYS;

  /** At most one of these. */
  static final class Which {
    @Option(
        names = "--calibration",
        paramLabel = "FILE",
        description = "This calibration, not the jig's youngest by its serial number.")
    private Optional<Path> file = Optional.empty();

    @Option(
        names = "--uncalibrated",
        description = "No calibration: the jig's nominal scales, good to some per cent.")
    private boolean none;
  }

  /**
   * The calibration that a jig is swept with.
   *
   * @param stored the calibration, when there is one that fits the jig
   * @param standing whether a shop may let a box pass on it
   * @param words what a job card says of it
   * @param rule what the shop demands
   * @param due that it must be made anew soon, where that is so
   */
  record Chosen(
      Optional<StoredCalibration> stored,
      CalibrationStanding standing,
      String words,
      ShopRule rule,
      Optional<String> due) {

    /** A verdict under the shop's rule. */
    Verdict hold(Verdict verdict) {
      return rule.required() ? standing.hold(verdict) : verdict;
    }

    /** How to sweep the jig. */
    SweepSettings settings() {
      return stored
          .map(each -> SweepSettings.standard().with(each.calibration()))
          .orElseGet(SweepSettings::standard);
    }
  }

  /** What was asked for, read before anything is measured. */
  final class Asked {
    private final Optional<StoredCalibration> named;

    private Asked(Optional<StoredCalibration> named) {
      this.named = named;
    }

    /**
     * The calibration for a jig.
     *
     * @param rule what a shop demands of it; then one of another jig is a standing and not a
     *     refusal
     */
    Chosen on(JigIdentity jig, ShopRule rule, ZonedDateTime now) throws CommandFailure {
      if (which.none) {
        return without(CalibrationStanding.missing(jig), "none, as asked: nominal scales", rule);
      }
      if (named.isPresent()) {
        Optional<String> foreign = named.get().foreignTo(jig);
        if (foreign.isPresent() && !rule.required()) {
          throw new CommandFailure(ExitCode.BAD_DATA, foreign.get());
        }
        return foreign.isPresent()
            ? without(
                CalibrationStanding.foreign(foreign.get()), "of another jig: nominal scales", rule)
            : with(named.get(), "", jig, rule, now);
      }
      return held(jig, rule, now);
    }

    private Chosen held(JigIdentity jig, ShopRule rule, ZonedDateTime now) throws CommandFailure {
      CalibrationShelf.Held held;
      try {
        held = shelf().of(jig);
      } catch (BadFileException bad) {
        throw new CommandFailure(ExitCode.BAD_DATA, bad.getMessage(), bad);
      }
      String passedOver = passedOver(held.unreadable());
      if (held.stored().isPresent()) {
        String found =
            jig.jig().serial().isPresent()
                ? "; found by the jig's serial number"
                : "; found for a jig without a serial number, it may be of another one";
        return with(held.stored().get().calibration(), found + passedOver, jig, rule, now);
      }
      return held.foreign()
          .map(
              because ->
                  without(
                      CalibrationStanding.foreign(because),
                      "none of this jig: nominal scales. " + because + passedOver,
                      rule))
          .orElseGet(
              () ->
                  without(
                      CalibrationStanding.missing(jig), "none: nominal scales" + passedOver, rule));
    }

    private Chosen with(
        StoredCalibration stored, String more, JigIdentity jig, ShopRule rule, ZonedDateTime now)
        throws CommandFailure {
      CheckLog.Content log;
      try {
        log = CheckLog.in(shelf().folderOf(jig)).read();
      } catch (BadFileException bad) {
        throw new CommandFailure(ExitCode.BAD_DATA, bad.getMessage(), bad);
      }
      DriftWatch watch =
          DriftWatch.of(log.readings(), stored.calibration().id(), rule.checkLimit(), now);
      return new Chosen(
          Optional.of(stored),
          CalibrationStanding.of(stored, days, watch, rule, now),
          stored.describe(now, days)
              + watch.words().map(words -> "; " + words).orElse("")
              + more
              + damaged(log),
          rule,
          stored.due(days, now));
    }

    private static String damaged(CheckLog.Content log) {
      return log.damagedLines() == 0
          ? ""
          : "; damaged lines among the check readings: " + log.damagedLines();
    }

    private static Chosen without(CalibrationStanding standing, String words, ShopRule rule) {
      return new Chosen(Optional.empty(), standing, words, rule, Optional.empty());
    }

    private static String passedOver(List<String> unreadable) {
      return unreadable.isEmpty() ? "" : "; passed over: " + String.join(" ", unreadable);
    }
  }

  /** Older than this a calibration is stale. */
  int days() {
    return days;
  }

  /** Where calibrations are kept. */
  CalibrationShelf shelf() {
    return place.shelf();
  }

  /** Reads the file, before anything is measured. */
  Asked read() throws CommandFailure {
    if (days < 1 || days > 3660) {
      throw new CommandFailure(
          ExitCode.USAGE, "--calibration-days is " + days + "; it must be from 1 to 3660.");
    }
    if (which.file.isEmpty()) {
      return new Asked(Optional.empty());
    }
    try {
      return new Asked(Optional.of(CalibrationFile.read(which.file.get())));
    } catch (BadFileException bad) {
      throw new CommandFailure(ExitCode.BAD_DATA, bad.getMessage(), bad);
    }
  }
}
