package conewise.simulator;

import static com.tngtech.archunit.lang.syntax.ArchRuleDefinition.noClasses;

import com.tngtech.archunit.base.DescribedPredicate;
import com.tngtech.archunit.core.domain.JavaClasses;
import com.tngtech.archunit.core.domain.JavaMethodCall;
import com.tngtech.archunit.core.importer.ClassFileImporter;
import com.tngtech.archunit.core.importer.ImportOption;
import java.util.Set;
import org.junit.jupiter.api.Test;

/** Which way knowledge runs inside the virtual jig. */
class ArchitectureTest {
  private static final JavaClasses CLASSES =
      new ClassFileImporter()
          .withImportOption(new ImportOption.DoNotIncludeTests())
          .importPackages("conewise.simulator");

  @Test
  void physicsKnowsNothingOfTheDigitalSide() {
    noClasses()
        .that()
        .resideInAnyPackage(
            "conewise.simulator.dynamics..",
            "conewise.simulator.box..",
            "conewise.simulator.analog..",
            "conewise.simulator.world..")
        .should()
        .dependOnClassesThat()
        .resideInAnyPackage(
            "conewise.simulator.jig..", "conewise.simulator.link..", "conewise.protocol..")
        .check(CLASSES);
  }

  @Test
  void physicsIsLayered() {
    noClasses()
        .that()
        .resideInAPackage("conewise.simulator.dynamics..")
        .should()
        .dependOnClassesThat()
        .resideInAnyPackage(
            "conewise.simulator.box..", "conewise.simulator.analog..", "conewise.simulator.world..")
        .check(CLASSES);
    noClasses()
        .that()
        .resideInAPackage("conewise.simulator.box..")
        .should()
        .dependOnClassesThat()
        .resideInAnyPackage("conewise.simulator.analog..", "conewise.simulator.world..")
        .check(CLASSES);
    noClasses()
        .that()
        .resideInAPackage("conewise.simulator.analog..")
        .should()
        .dependOnClassesThat()
        .resideInAPackage("conewise.simulator.world..")
        .check(CLASSES);
  }

  @Test
  void virtualJigSharesNothingWithAnalysisOrHost() {
    noClasses()
        .should()
        .dependOnClassesThat()
        .resideInAnyPackage("conewise.analysis..", "conewise.jig..", "conewise.station..")
        .check(CLASSES);
  }

  /**
   * What {@link Math} gives to the last bit on every machine; of all else each may round its own.
   */
  private static final Set<String> EXACT =
      Set.of(
          "abs",
          "ceil",
          "clamp",
          "copySign",
          "floor",
          "floorDiv",
          "floorMod",
          "fma",
          "getExponent",
          "max",
          "min",
          "rint",
          "round",
          "scalb",
          "signum",
          "sqrt",
          "toIntExact",
          "ulp");

  @Test
  void oneSeedGivesTheSameSamplesOnEveryMachine() {
    noClasses()
        .should()
        .callMethodWhere(
            DescribedPredicate.describe(
                "a function of Math that a machine may round in its own way",
                (JavaMethodCall call) ->
                    call.getTargetOwner().isEquivalentTo(Math.class)
                        && !EXACT.contains(call.getName())))
        .because("the lab's data sets are the same for the same student number; use StrictMath")
        .check(CLASSES);
  }
}
