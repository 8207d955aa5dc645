package conewise.station.study;

import conewise.analysis.diagnosis.Candidate;
import conewise.analysis.diagnosis.Diagnosis;
import conewise.analysis.diagnosis.Fault;
import conewise.analysis.diagnosis.Finding;
import conewise.analysis.outcome.Estimate;
import conewise.analysis.outcome.Outcome;
import conewise.analysis.outcome.Outcome.Found;
import conewise.analysis.parameter.BoxFigures;
import conewise.station.study.BuildSheet.BuiltDriver;
import java.util.ArrayList;
import java.util.List;
import java.util.Optional;
import java.util.function.ToDoubleFunction;

/**
 * A figure of a drawn box as it was built and as it was read.
 *
 * @param figure which
 * @param of the part that has it, like drivers joined by "and"
 * @param truth as built: hertz, ohm or a pure number
 * @param read what the likeliest explanation's fit says, in the same unit
 */
record StudyReading(Figure figure, String of, double truth, Estimate read) {

  /** What is read of a box. */
  enum Figure {
    TUNING("tuning", "tuning_hz"),
    RESONANCE("fs", "resonance_hz"),
    TOTAL_Q("Qts", "total_q"),
    DC_RESISTANCE("Re", "dc_resistance_ohm");

    private final String word;
    private final String key;

    Figure(String word, String key) {
      this.word = word;
      this.key = key;
    }

    /** Its usual name in the trade. */
    String word() {
      return word;
    }

    /** Its name and unit in JSON. */
    String key() {
      return key;
    }
  }

  double relativeError() {
    return Math.abs(read.value() / truth - 1);
  }

  boolean held() {
    return read.interval().contains(truth);
  }

  /**
   * All that the likeliest explanation reads of parts that the sheet has; nothing where it stands
   * for the true one but is another, since its parts then bear one another's names.
   */
  static List<StudyReading> of(BuildSheet sheet, List<Fault> faults, Diagnosis diagnosis) {
    Finding best = diagnosis.findings().get(0);
    Candidate candidate = diagnosis.planned();
    for (Fault fault : faults) {
      candidate = fault.change().apply(candidate);
    }
    if (!candidate.model().equals(best.candidate().model())) {
      return List.of();
    }
    BoxFigures figures = BoxFigures.of(best.fit(), best.candidate().model());
    List<StudyReading> readings = new ArrayList<>();
    for (BoxFigures.SpaceFigure space : figures.spaces()) {
      double truth = sheet.tuningHz(space.name());
      if (truth > 0) {
        reading(Figure.TUNING, space.name(), truth, space.tuningHz()).ifPresent(readings::add);
      }
    }
    for (BoxFigures.DriverFigure driver : figures.drivers()) {
      String names = String.join(" and ", driver.names());
      List<BuiltDriver> built = driver.names().stream().map(sheet.drivers::get).toList();
      reading(Figure.RESONANCE, names, mean(built, BuiltDriver::resonanceHz), driver.resonanceHz())
          .ifPresent(readings::add);
      reading(Figure.TOTAL_Q, names, mean(built, BuiltDriver::totalQ), driver.totalQ())
          .ifPresent(readings::add);
      reading(
              Figure.DC_RESISTANCE,
              names,
              mean(built, BuiltDriver::resistanceOhm),
              driver.dcResistanceOhm())
          .ifPresent(readings::add);
    }
    return readings;
  }

  private static Optional<StudyReading> reading(
      Figure figure, String of, double truth, Outcome<Estimate> read) {
    return read instanceof Found<Estimate> found
        ? Optional.of(new StudyReading(figure, of, truth, found.value()))
        : Optional.empty();
  }

  /** Geometric, as the fit's figure of several like drivers is. */
  private static double mean(List<BuiltDriver> built, ToDoubleFunction<BuiltDriver> figure) {
    return Math.exp(
        built.stream()
            .mapToDouble(each -> Math.log(figure.applyAsDouble(each)))
            .average()
            .orElseThrow());
  }
}
