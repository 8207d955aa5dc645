package conewise.protocol;

import static com.tngtech.archunit.lang.syntax.ArchRuleDefinition.classes;
import static com.tngtech.archunit.lang.syntax.ArchRuleDefinition.noClasses;

import com.tngtech.archunit.core.domain.JavaClasses;
import com.tngtech.archunit.core.importer.ClassFileImporter;
import java.nio.file.Path;
import org.junit.jupiter.api.Test;

class ArchitectureTest {
  private static final JavaClasses MODULE =
      new ClassFileImporter().importPath(Path.of("target", "classes"));

  @Test
  void dependsOnTheJavaPlatformOnly() {
    classes()
        .should()
        .onlyDependOnClassesThat()
        .resideInAnyPackage("conewise.protocol..", "java..")
        .check(MODULE);
  }

  @Test
  void theCodecKnowsNothingOfItsVectors() {
    noClasses()
        .that()
        .resideInAPackage("conewise.protocol")
        .should()
        .dependOnClassesThat()
        .resideInAPackage("conewise.protocol.vectors")
        .check(MODULE);
  }
}
