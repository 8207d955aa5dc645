package conewise.station.study;

import static org.junit.jupiter.api.Assertions.assertEquals;
import static org.junit.jupiter.api.Assertions.assertFalse;
import static org.junit.jupiter.api.Assertions.assertTrue;

import conewise.analysis.diagnosis.Diagnosis;
import conewise.analysis.diagnosis.DirectResistance;
import conewise.analysis.diagnosis.Fault;
import conewise.analysis.diagnosis.FaultKind;
import conewise.analysis.diagnosis.PossibleResistance;
import conewise.analysis.diagnosis.Rates;
import conewise.analysis.model.Circuit;
import conewise.station.planfile.PlannedBoxFile;
import java.util.ArrayList;
import java.util.Collections;
import java.util.List;
import java.util.Random;
import org.junit.jupiter.api.Test;

/** Which boxes are refused by their DC resistance, before they are swept. */
class PossibleResistanceTest {
  private static final int BOXES = 300;

  /** Of a box as it was built, by Ohm's and Kirchhoff's laws. */
  private static double ohm(BuildSheet sheet) {
    double box =
        sheet.leadOhm
            + DirectResistance.ohm(
                sheet.circuit,
                coil -> sheet.drivers.get(coil.driver()).coilOhm[coil.number() - 1],
                Circuit.Resistance::ohm);
    return 1 / (1 / box + 1 / sheet.besideOhm);
  }

  /** All example plans, and those of which the judge is told nearly nothing. */
  private static List<StudyPlan> plans() throws Exception {
    List<StudyPlan> plans = new ArrayList<>(StudyPlan.all());
    for (String name : PlannedBoxFile.BUNDLED) {
      if (plans.stream().noneMatch(each -> each.name().equals(name))) {
        plans.add(new StudyPlan(name, PlannedBoxFile.bundled(name), PlannedBoxFile.bundled(name)));
      }
    }
    return plans;
  }

  private static boolean ofAnySize(Fault fault) {
    return fault.kind() == FaultKind.RESISTANCE_ADDED || fault.kind() == FaultKind.SOURCE_CONNECTED;
  }

  @Test
  void noGoodOrFaultyBoxOfAnyExamplePlanIsRefused() throws Exception {
    long seed = new Random().nextLong();
    Random random = new Random(seed);
    for (StudyPlan plan : plans()) {
      PossibleResistance possible = PossibleResistance.of(plan.given());
      List<Fault> faults =
          BuildFault.of(plan.given(), Diagnosis.usualFaults(plan.given(), Rates.USUAL));
      for (int box = 0; box < BOXES; box++) {
        List<Fault> drawn = new ArrayList<>();
        Fault first = faults.get(random.nextInt(faults.size()));
        Fault second = faults.get(random.nextInt(faults.size()));
        if (box % 3 > 0) {
          drawn.add(first);
        }
        if (box % 3 > 1
            && !ofAnySize(first)
            && !ofAnySize(second)
            && Collections.disjoint(first.touches(), second.touches())) {
          drawn.add(second);
        }
        BuildSheet sheet = new BuildSheet(plan.full(), random);
        drawn.forEach(fault -> BuildFault.build(fault, sheet, plan.full(), random));
        double ohm = ohm(sheet);
        if (Double.isFinite(ohm)) {
          assertTrue(
              possible.allows(ohm, 0),
              () ->
                  plan.name()
                      + " with "
                      + drawn.stream().map(Fault::id).toList()
                      + " reads "
                      + ohm
                      + " ohm, seed "
                      + seed
                      + ": "
                      + possible);
        }
      }
    }
  }

  @Test
  void aBoxThatNoFaultOfThePlanMakesIsRefusedInOneSentence() throws Exception {
    PossibleResistance dipper = PossibleResistance.of(PlannedBoxFile.bundled("dipper"));
    assertTrue(dipper.allows(5.8, 0.041));
    // A lone coil reads nothing near half of itself, whatever is wrong with it.
    assertFalse(dipper.allows(2.8, 0.041), dipper::toString);
    String said = dipper.refusal(2.8);
    assertTrue(said.startsWith("This is not box Dipper") && said.contains("2.8 ohm"), said);
    // Where the scale is not known a refusal must be plainer still.
    assertTrue(dipper.allows(2.8, 0.5));
  }

  @Test
  void everyExamplePlanAllowsItsOwnBoxesAndRefusesThoseFarFromIt() throws Exception {
    int refused = 0;
    for (String name : PlannedBoxFile.BUNDLED) {
      PossibleResistance possible = PossibleResistance.of(PlannedBoxFile.bundled(name));
      for (String other : PlannedBoxFile.BUNDLED) {
        double ohm = DirectResistance.ohm(PlannedBoxFile.bundled(other).model());
        boolean allowed = possible.allows(ohm, 0.041);
        assertTrue(allowed || !other.equals(name), name);
        refused += allowed ? 0 : 1;
      }
    }
    // Most example boxes are of about 3.5 ohm, so that nothing but a sweep tells them apart.
    assertEquals(12, refused, "of 90 wrong jobs");
  }
}
