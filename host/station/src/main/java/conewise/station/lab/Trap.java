package conewise.station.lab;

/**
 * A known way to a wrong number.
 *
 * @param value what it leads to, in the unit of the question
 * @param words how one comes there, a clause without a full stop
 */
record Trap(double value, String words) {
  Trap {
    if (!Double.isFinite(value)) {
      throw new IllegalArgumentException("a trap leads to " + value + "; it must be a number");
    }
  }
}
