package conewise.station.lab;

import java.util.List;
import java.util.Optional;

/**
 * One experiment as one student has it.
 *
 * @param experiment which
 * @param given what the sheet states, a sentence each
 * @param measured what is measured
 * @param tone the tone that is worked out by hand, on the first of what is measured
 * @param plan a plan for the fit of a box; none for a bare driver
 * @param questions what is asked
 */
record Assignment(
    Experiment experiment,
    List<String> given,
    List<Measured> measured,
    HandTone tone,
    Optional<String> plan,
    List<Question> questions) {
  Assignment {
    given = List.copyOf(given);
    measured = List.copyOf(measured);
    questions = List.copyOf(questions);
  }

  /** The full name of a question in the answers' file. */
  String idOf(Question question) {
    return experiment.word() + "." + question.name();
  }
}
