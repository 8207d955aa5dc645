package conewise.station.lab;

import java.util.OptionalDouble;

/**
 * What is said of one answer.
 *
 * @param question the question's full name
 * @param grade right or not
 * @param because a clause or sentence; never empty
 * @param off by what part a wrong number is off, above 0 for too high; none for what is no number
 */
record Mark(String question, Grade grade, String because, OptionalDouble off) {
  /** How an answer is. */
  enum Grade {
    RIGHT("right"),
    WRONG("wrong"),
    NOT_ANSWERED("not answered");

    private final String word;

    Grade(String word) {
      this.word = word;
    }

    String word() {
      return word;
    }
  }
}
