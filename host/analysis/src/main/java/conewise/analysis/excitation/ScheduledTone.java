package conewise.analysis.excitation;

/**
 * A tone to play and how much of it to record: whole periods, as nearly as the jig's clock allows.
 *
 * @param step what the jig's 32-bit phase gains each tick
 * @param frequencyHz the frequency that this step plays, in hertz
 * @param periods whole periods in the record
 * @param frames frames to record
 */
public record ScheduledTone(long step, double frequencyHz, int periods, int frames) {

  public ScheduledTone {
    if (step < 1 || periods < 1 || frames < 1 || !(frequencyHz > 0)) {
      throw new IllegalArgumentException(
          "a tone of step "
              + step
              + ", "
              + frequencyHz
              + " Hz, "
              + periods
              + " periods and "
              + frames
              + " frames; each must be positive");
    }
  }
}
