package conewise.station.command;

import conewise.analysis.judgement.Verdict;
import conewise.protocol.JigIdentity;
import conewise.station.calibrating.CalibrationShelf;
import conewise.station.files.BadFileException;
import conewise.station.fixture.CheckChart;
import conewise.station.selftest.CheckLog;
import java.util.List;
import picocli.CommandLine.Option;

/** A shop's rule on its check resistors (docs/fixture.md). */
final class SteadyFixtureOption {
  @Option(
      names = "--require-steady-fixture",
      description =
          "No box passes while the last reading of a check resistor is out of its chart's limits.")
  private boolean required;

  /** What a jig's check resistors leave of a verdict. */
  @FunctionalInterface
  interface Rule {
    Verdict hold(JigIdentity jig, Verdict verdict);
  }

  /** The rule on check resistors; a log that cannot be read proves nothing, so it blocks. */
  Rule rule(CalibrationShelf shelf) {
    return required
        ? (jig, verdict) -> CheckChart.hold(verdict, charts(shelf, jig))
        : (jig, verdict) -> verdict;
  }

  private static List<CheckChart> charts(CalibrationShelf shelf, JigIdentity jig) {
    try {
      return CheckChart.of(CheckLog.in(shelf.folderOf(jig)).read().readings(), CheckChart.BASELINE);
    } catch (BadFileException unread) {
      return List.of(CheckChart.unread(unread.getMessage()));
    }
  }
}
