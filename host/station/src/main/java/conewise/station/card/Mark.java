package conewise.station.card;

/**
 * A place on the curve that a person should look at.
 *
 * @param kind a peak or a dip of |Z|
 * @param frequencyHz where it stands, positive
 * @param modulusOhm |Z| there, not negative
 */
public record Mark(Kind kind, double frequencyHz, double modulusOhm) {

  /** What stands there. */
  public enum Kind {
    PEAK,
    DIP
  }

  public Mark {
    if (!(frequencyHz > 0) || !(modulusOhm >= 0) || Double.isInfinite(frequencyHz + modulusOhm)) {
      throw new IllegalArgumentException(
          "a mark at " + frequencyHz + " Hz and " + modulusOhm + " ohm cannot be drawn");
    }
  }
}
