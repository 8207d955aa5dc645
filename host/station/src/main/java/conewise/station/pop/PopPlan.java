package conewise.station.pop;

import conewise.analysis.diagnosis.Motion;
import conewise.analysis.model.Space;
import conewise.analysis.plan.PlannedBox;
import conewise.analysis.plan.PlannedBox.PlacedDriver;
import java.util.LinkedHashMap;
import java.util.Map;

/**
 * What a pop test of a planned box should show: for each driver that can be reached from outside,
 * which way its outer side goes when the terminal marked + becomes positive.
 */
public final class PopPlan {
  private final Map<String, PlacedDriver> drivers = new LinkedHashMap<>();
  private final Map<String, Motion> expected;

  /** Of a plan. */
  public PopPlan(PlannedBox plan) {
    expected = Motion.of(plan.model());
    for (PlacedDriver driver : plan.drivers()) {
      if (expected.containsKey(driver.name())) {
        drivers.put(driver.name(), driver);
      }
    }
  }

  /** What each should do, in the order of the plan; a driver between two spaces is left out. */
  public Map<String, Motion> expected() {
    Map<String, Motion> ordered = new LinkedHashMap<>();
    drivers.keySet().forEach(name -> ordered.put(name, expected.get(name)));
    return ordered;
  }

  /** The kind of each, in the order of the plan. */
  public Map<String, String> kinds() {
    Map<String, String> kinds = new LinkedHashMap<>();
    drivers.forEach((name, driver) -> kinds.put(name, driver.kind()));
    return kinds;
  }

  /** True when its magnet faces the outside. */
  public boolean isMagnetOut(String driver) {
    return drivers.get(driver).behind().equals(Space.OUTSIDE)
        && !drivers.get(driver).before().equals(Space.OUTSIDE);
  }

  /** What to watch and what a right one does, in one sentence. */
  public String instruction(String driver) {
    Motion motion = expected.get(driver);
    String side = isMagnetOut(driver) ? ", whose magnet faces you" : "";
    String right =
        switch (motion) {
          case OUT -> "comes towards you";
          case IN -> "goes away from you";
          case HARDLY -> "hardly moves";
        };
    String because =
        motion == Motion.IN
            ? isMagnetOut(driver)
                ? " (it is mounted with its magnet out)"
                : " (the plan has it reversed)"
            : "";
    return "Stand before driver " + driver + side + ": if right, its cone " + right + because + ".";
  }
}
