package conewise.station.command;

import conewise.station.pop.PopWay;
import java.util.Optional;
import picocli.CommandLine.ArgGroup;
import picocli.CommandLine.Option;

/** How a pop test is to be made; without any of these the command chooses. */
final class PopWayOptions {
  @ArgGroup(exclusive = true)
  private One one = new One();

  /** At most one of these. */
  static final class One {
    @Option(names = "--microphone", description = "Hear it by a microphone on the jig.")
    private boolean microphone;

    @Option(names = "--jig-step", description = "Watch the jig's own step.")
    private boolean jigStep;

    @Option(names = "--battery", description = "Watch what a dry cell does; no jig is needed.")
    private boolean battery;
  }

  Optional<PopWay> chosen() {
    if (one.microphone) {
      return Optional.of(PopWay.MICROPHONE);
    } else if (one.jigStep) {
      return Optional.of(PopWay.JIG_STEP);
    }
    return one.battery ? Optional.of(PopWay.BATTERY) : Optional.empty();
  }

  boolean is(PopWay way) {
    return chosen().equals(Optional.of(way));
  }
}
