package conewise.analysis;

import static com.tngtech.archunit.lang.syntax.ArchRuleDefinition.classes;
import static com.tngtech.archunit.lang.syntax.ArchRuleDefinition.noClasses;

import com.tngtech.archunit.core.importer.ImportOption;
import com.tngtech.archunit.junit.AnalyzeClasses;
import com.tngtech.archunit.junit.ArchTest;
import com.tngtech.archunit.lang.ArchRule;

/**
 * A lab can use the analysis alone: it knows no port, no file, no screen and none of our modules.
 */
@AnalyzeClasses(packages = "conewise", importOptions = ImportOption.DoNotIncludeTests.class)
class ArchitectureTest {

  @ArchTest
  static final ArchRule DEPENDS_ON_THE_JDK_AND_COMMONS_MATH_ONLY =
      classes()
          .that()
          .resideInAPackage("conewise.analysis..")
          .should()
          .onlyDependOnClassesThat()
          .resideInAnyPackage("java..", "org.apache.commons.math3..", "conewise.analysis..");

  @ArchTest
  static final ArchRule TOUCHES_NO_FILE_NETWORK_OR_SCREEN =
      noClasses()
          .that()
          .resideInAPackage("conewise.analysis..")
          .should()
          .dependOnClassesThat()
          .resideInAnyPackage("java.nio.file..", "java.net..", "java.awt..", "javax.swing..");

  /** Serializable comes with records' lambdas and exceptions, and reads no file. */
  @ArchTest
  static final ArchRule READS_AND_WRITES_NO_STREAM =
      noClasses()
          .that()
          .resideInAPackage("conewise.analysis..")
          .should()
          .dependOnClassesThat()
          .haveNameMatching("java\\.io\\.(?!Serializable).*");

  @ArchTest
  static final ArchRule SIGNALS_KNOW_NOTHING_OF_BOXES =
      noClasses()
          .that()
          .resideInAnyPackage(
              "conewise.analysis.sampling..",
              "conewise.analysis.impedance..",
              "conewise.analysis.excitation..",
              "conewise.analysis.spectrum..",
              "conewise.analysis.bench..")
          .should()
          .dependOnClassesThat()
          .resideInAnyPackage("conewise.analysis.plan..", "conewise.analysis.judgement..");
}
