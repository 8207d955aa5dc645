package conewise.simulator.jig;

import conewise.simulator.analog.AnalogWorld;
import conewise.simulator.analog.JigHardware;
import java.util.ArrayList;
import java.util.List;
import java.util.function.LongToIntFunction;

/**
 * An analog side without physics: its codes are a function of the tick at whose end they are taken,
 * and it keeps every drive code.
 */
final class CountingWorld implements AnalogWorld {
  private final List<Integer> driveCodes = new ArrayList<>();
  private final LongToIntFunction codeAtTick;
  private final JigHardware hardware = JigHardware.nominal();

  CountingWorld(LongToIntFunction codeAtTick) {
    this.codeAtTick = codeAtTick;
  }

  /** Codes that tell the tick modulo 1000, plus 1: never at an end of the converter. */
  static CountingWorld countingTicks() {
    return new CountingWorld(tick -> (int) (tick % 1000) + 1);
  }

  /** A quiet input. */
  static CountingWorld quiet() {
    return new CountingWorld(tick -> 512);
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
    return codeAtTick.applyAsInt(driveCodes.size());
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
