package conewise.station.lab;

/** What a student says to a question. */
sealed interface Answer {
  /** Nothing. */
  record None() implements Answer {}

  /**
   * A number.
   *
   * @param value in the question's unit
   */
  record Figure(double value) implements Answer {}

  /** A word. */
  record Word(String word) implements Answer {}

  /** That the data do not tell. */
  record Undetermined() implements Answer {}
}
