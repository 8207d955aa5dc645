package conewise.station.command;

import conewise.station.answer.CommandFailure;
import conewise.station.answer.ExitCode;
import conewise.station.calibrating.ShopRule;
import java.util.Optional;
import picocli.CommandLine.Option;

/** What a shop demands of the calibration before a box may pass. */
final class ShopRuleOptions {
  @Option(
      names = "--require-calibration",
      description =
          "A shop's rule: no box passes on a calibration that is missing, stale, foreign, or"
              + " contradicted by a check resistor.")
  private boolean required;

  @Option(
      names = "--check-days",
      paramLabel = "DAYS",
      description =
          "With it: the check resistor (selftest) must have been good within these days, or the"
              + " calibration be as young; 0 for no such demand (default 7).")
  private Optional<Integer> days = Optional.empty();

  @Option(
      names = "--check-limit",
      paramLabel = "PERCENT",
      description = "With it: how far a check resistor may deviate, 0.1 to 20 (default 1).")
  private Optional<Double> limitPercent = Optional.empty();

  /** What is demanded; the usual figures, for words alone, where nothing is. */
  ShopRule read() throws CommandFailure {
    if (!required && (days.isPresent() || limitPercent.isPresent())) {
      throw new CommandFailure(
          ExitCode.USAGE, "--check-days and --check-limit go with --require-calibration.");
    }
    if (days.isPresent() && !(days.get() >= 0 && days.get() <= 3660)) {
      throw new CommandFailure(
          ExitCode.USAGE, "--check-days is " + days.get() + "; it must be from 0 to 3660.");
    }
    if (limitPercent.isPresent() && !(limitPercent.get() >= 0.1 && limitPercent.get() <= 20)) {
      throw new CommandFailure(
          ExitCode.USAGE,
          "--check-limit is " + limitPercent.get() + " %; it must be from 0.1 to 20.");
    }
    return new ShopRule(
        required,
        days.orElse(ShopRule.USUAL_CHECK_DAYS),
        limitPercent.map(percent -> percent / 100).orElse(ShopRule.USUAL_CHECK_LIMIT));
  }
}
