package conewise.analysis.prediction;

import conewise.analysis.diagnosis.Candidate;
import conewise.analysis.diagnosis.Fault;
import conewise.analysis.diagnosis.Motion;
import conewise.analysis.diagnosis.Signature;
import conewise.analysis.diagnosis.State;
import conewise.analysis.plan.PlannedBox;
import java.util.ArrayList;
import java.util.List;
import java.util.Map;

/** What shows a fault that the terminals of a box as it came cannot show. */
final class UnseenTests {
  private final Candidate planned;
  private final List<State> states = new ArrayList<>();

  UnseenTests(PlannedBox plan, Candidate planned) {
    this.planned = planned;
    plan.vents().forEach(vent -> states.add(new State.VentClosed(vent.name())));
    if (plan.drivers().size() > 1) {
      plan.drivers().forEach(driver -> states.add(new State.Unplugged(driver.name())));
      plan.drivers().forEach(driver -> states.add(new State.LeadsSwapped(driver.name())));
    }
  }

  /** The tests that would show a fault, and what they would show; at least one sentence. */
  List<String> of(Fault fault) {
    Candidate faulty = fault.change().apply(planned);
    List<String> tests = new ArrayList<>();
    pop(faulty, tests);
    for (State state : states) {
      Candidate right = state.of(planned);
      Candidate wrong = state.of(faulty);
      if (right.model().conducts() && differ(right, wrong)) {
        tests.add("A second sweep " + state.words() + " differs from a good box's.");
        break;
      }
    }
    if (tests.isEmpty()) {
      tests.add(
          "Neither a pop test nor a second sweep shows it: compare the links with the plan before"
              + " the box is closed.");
    }
    return tests;
  }

  private static boolean differ(Candidate right, Candidate wrong) {
    return !wrong.model().conducts() || !Signature.of(right).equals(Signature.of(wrong));
  }

  private void pop(Candidate faulty, List<String> tests) {
    Map<String, Motion> right = Motion.of(planned.model());
    Map<String, Motion> wrong = Motion.of(faulty.model());
    List<String> seen = new ArrayList<>();
    right.forEach(
        (driver, motion) -> {
          if (wrong.get(driver) != motion) {
            seen.add(
                "the cone of driver "
                    + driver
                    + " "
                    + wrong.get(driver).words()
                    + " where it should "
                    + infinitive(motion));
          }
        });
    if (!seen.isEmpty()) {
      tests.add(
          "Pop test, every amplifier disconnected (1.5 V for less than a second): "
              + String.join(", ", seen)
              + ".");
    }
  }

  private static String infinitive(Motion motion) {
    return switch (motion) {
      case OUT -> "move out";
      case IN -> "move in";
      case HARDLY -> "hardly move";
    };
  }
}
