package conewise.station.measuring;

import conewise.analysis.judgement.Decision;
import conewise.jig.client.JigClient;
import conewise.jig.client.JigFaultException;
import conewise.protocol.Requests.Lamp;
import conewise.protocol.Requests.LampState;

/**
 * The lamps of a jig, where it has some. Pass and fail are lit by a verdict alone; undecided blinks
 * both; not judged leaves both dark and blinks busy.
 *
 * <p>A jig that has gone shows nothing: its lamps are not what a verdict rests on.
 */
public final class JigLamps {
  private final JigClient client;
  private final boolean fitted;

  /** The lamps of this jig. */
  public JigLamps(JigClient client) {
    this.client = client;
    this.fitted = client.identity().fitted().lamps();
  }

  /** A measurement runs: the last box's verdict goes dark. */
  public void busy() {
    set(LampState.OFF, LampState.OFF, LampState.ON);
  }

  /** Shows a decision. */
  public void show(Decision decision) {
    switch (decision) {
      case PASS -> set(LampState.ON, LampState.OFF, LampState.OFF);
      case FAIL -> set(LampState.OFF, LampState.ON, LampState.OFF);
      case UNDECIDED -> set(LampState.BLINK, LampState.BLINK, LampState.OFF);
      case NOT_JUDGED -> set(LampState.OFF, LampState.OFF, LampState.BLINK);
    }
  }

  private void set(LampState pass, LampState fail, LampState busy) {
    if (!fitted) {
      return;
    }
    try {
      client.lamp(Lamp.PASS, pass);
      client.lamp(Lamp.FAIL, fail);
      client.lamp(Lamp.BUSY, busy);
    } catch (JigFaultException gone) {
      // The screen says what matters; a jig that has gone has no lamps to set.
      return;
    }
  }
}
