package conewise.jig;

import static com.tngtech.archunit.lang.syntax.ArchRuleDefinition.classes;
import static com.tngtech.archunit.lang.syntax.ArchRuleDefinition.noClasses;

import com.tngtech.archunit.core.importer.ImportOption;
import com.tngtech.archunit.junit.AnalyzeClasses;
import com.tngtech.archunit.junit.ArchTest;
import com.tngtech.archunit.lang.ArchRule;

@AnalyzeClasses(packages = "conewise.jig", importOptions = ImportOption.DoNotIncludeTests.class)
class ArchitectureTest {

  @ArchTest
  static final ArchRule dependsOnProtocolAnalysisAndThePortLibraryOnly =
      classes()
          .should()
          .onlyDependOnClassesThat()
          .resideInAnyPackage(
              "java..",
              "conewise.jig..",
              "conewise.protocol..",
              "conewise.analysis..",
              "com.fazecast.jSerialComm..");

  @ArchTest
  static final ArchRule onlyTheSerialPackageKnowsPorts =
      noClasses()
          .that()
          .resideOutsideOfPackage("conewise.jig.serial")
          .should()
          .dependOnClassesThat()
          .resideInAnyPackage("com.fazecast.jSerialComm..", "java.net..");

  @ArchTest
  static final ArchRule theClientKnowsNeitherPortsNorSweeps =
      noClasses()
          .that()
          .resideInAPackage("conewise.jig.client")
          .should()
          .dependOnClassesThat()
          .resideInAnyPackage("conewise.jig.serial", "conewise.jig.sweep");
}
