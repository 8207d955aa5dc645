package conewise.simulator.jig;

import conewise.simulator.analog.AnalogWorld;
import conewise.simulator.analog.JigHardware;
import java.util.ArrayList;
import java.util.List;

/**
 * An analog side without physics: its codes are a function of the channel and of the number of
 * ticks that have passed, and it keeps every drive code.
 */
public final class CountingWorld implements AnalogWorld {
  private final List<Integer> driveCodes = new ArrayList<>();
  private final Codes codes;
  private JigHardware hardware = JigHardware.nominal();

  /** What the converter shows. */
  @FunctionalInterface
  public interface Codes {
    /** The code of a channel when so many ticks have passed. */
    int at(long ticksPassed, int channel);
  }

  /** A world that shows these codes. */
  public CountingWorld(Codes codes) {
    this.codes = codes;
  }

  /** Codes that tell the tick modulo 1000, plus 1: never at an end of the converter. */
  public static CountingWorld countingTicks() {
    return new CountingWorld((tick, channel) -> (int) (tick % 1000) + 1);
  }

  /** A quiet input. */
  static CountingWorld quiet() {
    return new CountingWorld((tick, channel) -> 512);
  }

  CountingWorld withChannels(int count) {
    JigHardware full = JigHardware.nominal();
    hardware =
        new JigHardware(
            full.clockHz(),
            full.tickCycles(),
            full.driveBits(),
            full.converterBits(),
            full.levelMax(),
            full.voltPerLevel(),
            full.senseOhm(),
            full.channels().subList(0, count));
    return this;
  }

  @Override
  public void tick(int driveCode) {
    if (driveCode < 0 || driveCode > 1023) {
      throw new IllegalArgumentException("drive code " + driveCode + " is not 0 to 1023");
    }
    driveCodes.add(driveCode);
  }

  @Override
  public int convert(int channel) {
    return codes.at(driveCodes.size(), channel);
  }

  /** The code that was held during a tick, from 0. */
  int driveCode(long tick) {
    return driveCodes.get(Math.toIntExact(tick));
  }

  int lastDriveCode() {
    return driveCodes.get(driveCodes.size() - 1);
  }

  @Override
  public JigHardware hardware() {
    return hardware;
  }
}
