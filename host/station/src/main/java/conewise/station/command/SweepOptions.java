package conewise.station.command;

import conewise.jig.sweep.SweepKind;
import picocli.CommandLine.Option;

/** How a command sweeps. */
final class SweepOptions {
  @Option(
      names = "--thorough",
      description = "Tone by tone, each until settled, instead of all tones at once.")
  private boolean thorough;

  SweepKind kind() {
    return thorough ? SweepKind.THOROUGH : SweepKind.QUICK;
  }
}
