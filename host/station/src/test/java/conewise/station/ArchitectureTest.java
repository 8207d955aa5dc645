package conewise.station;

import static com.tngtech.archunit.lang.syntax.ArchRuleDefinition.noClasses;
import static com.tngtech.archunit.library.dependencies.SlicesRuleDefinition.slices;

import com.tngtech.archunit.core.importer.ImportOption;
import com.tngtech.archunit.junit.AnalyzeClasses;
import com.tngtech.archunit.junit.ArchTest;
import com.tngtech.archunit.lang.ArchRule;

/** The reactor's one way of dependencies, seen from the module that sees all others. */
@AnalyzeClasses(packages = "conewise", importOptions = ImportOption.DoNotIncludeTests.class)
class ArchitectureTest {

  @ArchTest
  static final ArchRule stationPackagesHaveNoCycles =
      slices().matching("conewise.station.(*)..").should().beFreeOfCycles();

  @ArchTest
  static final ArchRule nothingDependsOnTheStation =
      noClasses()
          .that()
          .resideOutsideOfPackage("conewise.station..")
          .should()
          .dependOnClassesThat()
          .resideInAPackage("conewise.station..");

  @ArchTest
  static final ArchRule analysisStandsAlone =
      noClasses()
          .that()
          .resideInAPackage("conewise.analysis..")
          .should()
          .dependOnClassesThat()
          .resideInAnyPackage(
              "conewise.protocol..", "conewise.jig..", "conewise.simulator..", "com.fasterxml..");

  @ArchTest
  static final ArchRule simulatorAndAnalysisShareNothing =
      noClasses()
          .that()
          .resideInAPackage("conewise.simulator..")
          .should()
          .dependOnClassesThat()
          .resideInAnyPackage("conewise.analysis..", "conewise.jig..");

  @ArchTest
  static final ArchRule theJigClientKnowsNoSimulator =
      noClasses()
          .that()
          .resideInAPackage("conewise.jig..")
          .should()
          .dependOnClassesThat()
          .resideInAPackage("conewise.simulator..");

  @ArchTest
  static final ArchRule drawingAndFilesKnowNoJig =
      noClasses()
          .that()
          .resideInAnyPackage(
              "conewise.station.card..",
              "conewise.station.chart..",
              "conewise.station.report..",
              "conewise.station.answer..",
              "conewise.station.files..",
              "conewise.station.keyedtext..",
              "conewise.station.planfile..")
          .should()
          .dependOnClassesThat()
          .resideInAnyPackage("conewise.jig..", "conewise.simulator..", "conewise.protocol..");

  @ArchTest
  static final ArchRule onlyTheCommandLineKnowsPicocli =
      noClasses()
          .that()
          .resideOutsideOfPackage("conewise.station.command..")
          .should()
          .dependOnClassesThat()
          .resideInAPackage("picocli..");
}
