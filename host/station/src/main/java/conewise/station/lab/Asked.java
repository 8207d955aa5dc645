package conewise.station.lab;

import java.util.List;

/** Questions in a line each. */
final class Asked {
  private Asked() {}

  static Question number(
      String name, String words, double truth, LabUnit unit, double tolerance, Trap... traps) {
    return new Question(name, words, new Key.Figure(truth, unit, tolerance, List.of(traps)));
  }

  static Question word(
      String name, String words, List<String> allowed, String right, String because) {
    return new Question(name, words, new Key.Word(allowed, right, because));
  }

  /** Words are asked for that these data do not choose between. */
  static Question undetermined(String name, String words, List<String> asked, String because) {
    Key.Form form = new Key.Form(LabUnit.PURE, asked);
    return new Question(name, words, new Key.Undetermined(form, because));
  }

  /** A number is asked for that these data do not tell. */
  static Question undetermined(String name, String words, LabUnit unit, String because) {
    return new Question(name, words, new Key.Undetermined(new Key.Form(unit, List.of()), because));
  }
}
