package conewise.simulator.jig;

import static com.tngtech.archunit.lang.syntax.ArchRuleDefinition.classes;

import com.tngtech.archunit.core.importer.ClassFileImporter;
import com.tngtech.archunit.core.importer.ImportOption;
import com.tngtech.archunit.lang.ArchRule;
import org.junit.jupiter.api.Test;

/** What the digital side and its links may know. */
class LayersTest {
  private static void check(ArchRule rule) {
    rule.check(
        new ClassFileImporter()
            .withImportOption(new ImportOption.DoNotIncludeTests())
            .importPackages("conewise.simulator"));
  }

  @Test
  void digitalSideKnowsTheWireAndAnAnalogSideAndNoBox() {
    check(
        classes()
            .that()
            .resideInAPackage("conewise.simulator.jig")
            .should()
            .onlyDependOnClassesThat()
            .resideInAnyPackage(
                "java..",
                "conewise.protocol",
                "conewise.simulator.analog",
                "conewise.simulator.jig"));
  }

  @Test
  void linksKnowTheJigAndNoPhysics() {
    check(
        classes()
            .that()
            .resideInAPackage("conewise.simulator.link")
            .should()
            .onlyDependOnClassesThat()
            .resideInAnyPackage(
                "java..",
                "conewise.protocol..",
                "conewise.simulator.jig",
                "conewise.simulator.link"));
  }
}
