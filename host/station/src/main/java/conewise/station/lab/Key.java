package conewise.station.lab;

import java.util.List;

/** What is the right answer to a question. */
sealed interface Key {
  /** How a student writes that the data do not tell. */
  String UNDETERMINED = "cannot be determined";

  /**
   * A number.
   *
   * @param truth in the question's unit
   * @param unit one of {@link LabUnit}'s
   * @param tolerance half the width of what is right, as a part of the truth
   * @param traps where known mistakes lead
   */
  record Figure(double truth, LabUnit unit, double tolerance, List<Trap> traps) implements Key {
    public Figure {
      traps = List.copyOf(traps);
      if (!(truth > 0 && Double.isFinite(truth)) || !(tolerance > 0 && tolerance < 1)) {
        throw new IllegalArgumentException(
            "a key of "
                + truth
                + " +- "
                + tolerance
                + "; both must be above 0, the latter below 1");
      }
    }
  }

  /**
   * One of some words.
   *
   * @param allowed the words to choose from
   * @param right the right one
   * @param because what shows it, a full sentence
   */
  record Word(List<String> allowed, String right, String because) implements Key {
    public Word {
      allowed = List.copyOf(allowed);
      if (!allowed.contains(right)) {
        throw new IllegalArgumentException("\"" + right + "\" is none of " + allowed);
      }
    }
  }

  /**
   * The data do not tell, and to say so is right.
   *
   * @param asked how an answer would look if they did: a number or one of some words; its own right
   *     answer is never shown
   * @param because why, and what would tell, a full sentence
   */
  record Undetermined(Form asked, String because) implements Key {}

  /**
   * How an answer may look.
   *
   * @param unit of a number; {@link LabUnit#PURE} where words are asked for
   * @param words to choose from; none where a number is asked for
   */
  record Form(LabUnit unit, List<String> words) {
    public Form {
      words = List.copyOf(words);
    }

    boolean isNumber() {
      return words.isEmpty();
    }

    /** For people. */
    String described() {
      return isNumber()
          ? (unit == LabUnit.PURE ? "number" : "number, " + unit.word())
          : String.join(" or ", words);
    }
  }

  /** How an answer to this may look. */
  default Form form() {
    if (this instanceof Figure number) {
      return new Form(number.unit(), List.of());
    }
    return this instanceof Word word
        ? new Form(LabUnit.PURE, word.allowed())
        : ((Undetermined) this).asked();
  }
}
