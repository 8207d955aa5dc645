package conewise.station.command;

import conewise.analysis.diagnosis.Loudness;
import conewise.analysis.diagnosis.Observation;
import conewise.analysis.diagnosis.Wind;
import conewise.analysis.plan.PlannedBox;
import conewise.station.answer.CommandFailure;
import java.util.ArrayList;
import java.util.List;
import java.util.Map;
import picocli.CommandLine.Option;

/** What a hand felt and an ear heard of the tones that {@code tone} writes. */
final class ToneTestOptions {
  private static final Map<String, Wind> WINDS =
      Map.of("strong", Wind.STRONG, "weak", Wind.WEAK, "none", Wind.NONE);

  private static final Map<String, Loudness> LEVELS =
      Map.of("louder", Loudness.LOUDER, "quieter", Loudness.QUIETER, "same", Loudness.SAME);

  @Option(
      names = "--wind",
      paramLabel = "VENT=WIND",
      description =
          "What a hand felt at a vent of a tone at the tuning (see conewise tone): strong, weak or"
              + " none; may be repeated.")
  private List<String> wind = List.of();

  @Option(
      names = "--level-swapped",
      paramLabel = "DRIVER=LEVEL",
      description =
          "How a tone sounded after the leads of a driver were swapped (see conewise tone): louder,"
              + " quieter or same; may be repeated.")
  private List<String> level = List.of();

  /** Reads all of it. */
  List<Observation> read(PlannedBox plan) throws CommandFailure {
    List<Observation> seen = new ArrayList<>();
    List<String> vents = plan.vents().stream().map(PlannedBox.PlannedVent::name).toList();
    for (String text : wind) {
      Seen<Wind> each = Seen.read("--wind", "vent", "strong, weak or none", text, vents, WINDS);
      seen.add(Observation.PortWind.of(plan, each.part(), each.what()));
    }
    List<String> drivers = plan.drivers().stream().map(PlannedBox.PlacedDriver::name).toList();
    for (String text : level) {
      Seen<Loudness> each =
          Seen.read("--level-swapped", "driver", "louder, quieter or same", text, drivers, LEVELS);
      seen.add(Observation.LevelWithLeadsSwapped.of(plan, each.part(), each.what()));
    }
    return seen;
  }
}
