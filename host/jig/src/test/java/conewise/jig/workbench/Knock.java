package conewise.jig.workbench;

import conewise.simulator.analog.AnalogWorld;
import conewise.simulator.analog.JigHardware;

/** A world that something hits once: for a short time its codes stand off. */
public final class Knock implements AnalogWorld {

  private final AnalogWorld inner;
  private final long fromTick;
  private final long toTick;
  private final int codes;
  private long ticks;

  public Knock(AnalogWorld inner, long fromTick, long toTick, int codes) {
    this.inner = inner;
    this.fromTick = fromTick;
    this.toTick = toTick;
    this.codes = codes;
  }

  @Override
  public void tick(int driveCode) {
    ticks++;
    inner.tick(driveCode);
  }

  @Override
  public int convert(int channel) {
    int code = inner.convert(channel);
    boolean hit = channel == 0 && ticks >= fromTick && ticks < toTick;
    return hit ? Math.min(1023, Math.max(0, code + codes)) : code;
  }

  @Override
  public JigHardware hardware() {
    return inner.hardware();
  }
}
