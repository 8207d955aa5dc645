package conewise.station.page;

import conewise.analysis.diagnosis.Motion;
import conewise.analysis.diagnosis.State;
import conewise.analysis.plan.PlannedBox;
import conewise.station.pop.MotionWords;
import conewise.station.pop.PopPlan;
import java.util.ArrayList;
import java.util.List;
import java.util.Map;
import java.util.Optional;
import java.util.TreeMap;

/** The further tests that a plan's box allows, and what can be answered to each. */
final class Choices {
  private static final String CELL =
      "Pop test, 1.5 V cell, under a second, amplifier off, clips off: what did the cone of ";

  private Choices() {}

  /**
   * A test.
   *
   * @param title what to do, or what is asked
   * @param answers what can be answered
   */
  record Test(String title, List<Answer> answers) {}

  /**
   * An answer: an order to the bench.
   *
   * @param order which order
   * @param fields what goes with it
   * @param words for people
   * @param state the state of the box that it stands for, where it is a sweep
   */
  record Answer(String order, Map<String, String> fields, String words, Optional<State> state) {}

  static List<Test> of(PlannedBox plan) {
    List<Test> tests = new ArrayList<>();
    List<Answer> sweeps = new ArrayList<>();
    plan.vents().forEach(vent -> sweeps.add(again("vent-closed", vent.name(), "Vent closed")));
    if (plan.drivers().size() > 1) {
      plan.drivers()
          .forEach(each -> sweeps.add(again("leads-swapped", each.name(), "Leads swapped")));
      plan.drivers().forEach(each -> sweeps.add(again("unplugged", each.name(), "Unplugged")));
    }
    if (!sweeps.isEmpty()) {
      tests.add(new Test("Change one thing, leave it so, and sweep again", sweeps));
    }
    for (String driver : new PopPlan(plan).expected().keySet()) {
      List<Answer> answers = new ArrayList<>();
      for (Motion motion : Motion.values()) {
        answers.add(
            new Answer("pop", popFields(driver, motion), "it " + motion.words(), Optional.empty()));
      }
      tests.add(new Test(CELL + driver + " do, + to +?", answers));
    }
    return tests;
  }

  static Map<String, String> popFields(String driver, Motion motion) {
    return new TreeMap<>(Map.of("driver", driver, "motion", MotionWords.of(motion)));
  }

  private static Answer again(String change, String part, String words) {
    Map<String, String> fields = new TreeMap<>(Map.of("change", change, "part", part));
    return new Answer("again", fields, words + ": " + part, state(change, part));
  }

  /** The state that a change of a part makes; none where there is no such change. */
  static Optional<State> state(String change, String part) {
    return switch (change) {
      case "vent-closed" -> Optional.of(new State.VentClosed(part));
      case "leads-swapped" -> Optional.of(new State.LeadsSwapped(part));
      case "unplugged" -> Optional.of(new State.Unplugged(part));
      default -> Optional.empty();
    };
  }
}
