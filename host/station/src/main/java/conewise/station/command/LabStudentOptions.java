package conewise.station.command;

import conewise.station.answer.CommandFailure;
import conewise.station.answer.ExitCode;
import conewise.station.lab.Experiment;
import conewise.station.lab.Student;
import java.util.ArrayList;
import java.util.List;
import picocli.CommandLine.Mixin;
import picocli.CommandLine.Option;

/** Whose data, and which. */
final class LabStudentOptions {
  @Mixin private WithoutExperiment whose;

  @Option(
      names = "--experiment",
      paramLabel = "NAME",
      description = "Only this one; may be given several times. All eight where it is not given.")
  private List<String> experiments = new ArrayList<>();

  Student student() throws CommandFailure {
    return whose.student();
  }

  List<Experiment> experiments() throws CommandFailure {
    if (experiments.isEmpty()) {
      return List.of(Experiment.values());
    }
    List<Experiment> chosen = new ArrayList<>();
    for (String each : experiments) {
      Experiment experiment =
          Experiment.named(each)
              .orElseThrow(
                  () ->
                      new CommandFailure(
                          ExitCode.USAGE,
                          "--experiment is \""
                              + each
                              + "\"; there are "
                              + Experiment.words()
                              + "."));
      if (!chosen.contains(experiment)) {
        chosen.add(experiment);
      }
    }
    return chosen;
  }

  /** The student alone. */
  static final class WithoutExperiment {
    @Option(
        names = "--student",
        paramLabel = "N",
        required = true,
        description = "The student's number, from 1; all data follow from it.")
    private long number;

    @Option(
        names = "--course",
        paramLabel = "WORD",
        defaultValue = "",
        description =
            "A word that the instructor keeps; data and key follow from it as well, so that the"
                + " number alone does not give the key away.")
    private String course;

    Student student() throws CommandFailure {
      try {
        return new Student(number, course);
      } catch (IllegalArgumentException bad) {
        String sentence = bad.getMessage();
        throw new CommandFailure(
            ExitCode.USAGE,
            Character.toUpperCase(sentence.charAt(0)) + sentence.substring(1) + ".",
            bad);
      }
    }
  }
}
