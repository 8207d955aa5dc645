package conewise.station.files;

/** Sample rates and intervals, each of which is the rounded inverse of the other. */
final class SampleRate {

  /** Neighbours tried on each side: rounding twice moves an inverse by no more. */
  private static final int NEIGHBOURS = 2;

  private SampleRate() {}

  /**
   * The rate with the fewest digits whose inverse is exactly this interval, so that 44100 Hz comes
   * back as 44100 and not as its neighbour; where no rate has exactly this inverse, the nearest
   * one.
   *
   * @param intervalSeconds positive, finite
   * @return the rate in hertz
   */
  static double ofInterval(double intervalSeconds) {
    double nearest = 1 / intervalSeconds;
    double best = nearest;
    boolean exact = 1 / nearest == intervalSeconds;
    double candidate = nearest;
    for (int i = 0; i < NEIGHBOURS; i++) {
      candidate = Math.nextDown(candidate);
    }
    for (int i = -NEIGHBOURS; i <= NEIGHBOURS; i++) {
      boolean shorter = Double.toString(candidate).length() < Double.toString(best).length();
      if (1 / candidate == intervalSeconds && (!exact || shorter)) {
        best = candidate;
        exact = true;
      }
      candidate = Math.nextUp(candidate);
    }
    return best;
  }
}
