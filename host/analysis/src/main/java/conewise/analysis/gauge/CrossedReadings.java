package conewise.analysis.gauge;

import conewise.analysis.outcome.Outcome;
import java.util.ArrayList;
import java.util.LinkedHashMap;
import java.util.List;
import java.util.Map;

/**
 * The readings of a study in which every operator read every part equally often.
 *
 * @param parts their names
 * @param operators their names
 * @param trials how often each read each, at least 2
 * @param cells the values of part i by operator j, at place {@code i * operators + j}
 */
public record CrossedReadings(
    List<String> parts, List<String> operators, int trials, List<List<Double>> cells) {
  /** The spread of fewer parts says nothing of all that are made. */
  public static final int FEWEST_PARTS = 3;

  private static final int FEWEST = 2;

  public CrossedReadings {
    parts = List.copyOf(parts);
    operators = List.copyOf(operators);
    cells = cells.stream().map(List::copyOf).toList();
  }

  /**
   * Sorts readings into cells.
   *
   * @param readings in the order in which they were taken; their parts and operators keep it
   * @return no result, with what is missing, where the study is not whole
   */
  public static Outcome<CrossedReadings> of(List<GaugeReading> readings) {
    List<String> parts = readings.stream().map(GaugeReading::part).distinct().toList();
    List<String> operators = readings.stream().map(GaugeReading::operator).distinct().toList();
    if (parts.size() < FEWEST_PARTS) {
      return Outcome.none(few(parts.size(), "part", FEWEST_PARTS));
    }
    if (operators.size() < FEWEST) {
      return Outcome.none(few(operators.size(), "operator", FEWEST));
    }
    Map<String, List<Double>> cells = new LinkedHashMap<>();
    parts.forEach(part -> operators.forEach(each -> cells.put(key(part, each), new ArrayList<>())));
    readings.forEach(each -> cells.get(key(each.part(), each.operator())).add(each.value()));
    int trials = cells.values().stream().mapToInt(List::size).max().orElseThrow();
    if (trials < FEWEST) {
      return Outcome.none(few(trials, "trial", FEWEST));
    }
    for (String part : parts) {
      for (String operator : operators) {
        int there = cells.get(key(part, operator)).size();
        if (there != trials) {
          return Outcome.none(
              "operator "
                  + operator
                  + " has read part "
                  + part
                  + " "
                  + times(there)
                  + " and others were read "
                  + times(trials)
                  + "; all must be read equally often");
        }
      }
    }
    return Outcome.found(
        new CrossedReadings(parts, operators, trials, List.copyOf(cells.values())));
  }

  private static String few(int there, String what, int fewest) {
    return "there "
        + (there == 1 ? "is 1 " + what : "are " + there + " " + what + "s")
        + " and a study needs at least "
        + fewest;
  }

  private static String times(int count) {
    return count == 1 ? "once" : count + " times";
  }

  private static String key(String part, String operator) {
    return part + "\n" + operator;
  }

  /** The values of one part by one operator. */
  List<Double> cell(int part, int operator) {
    return cells.get(part * operators.size() + operator);
  }

  double cellMean(int part, int operator) {
    return mean(cell(part, operator));
  }

  double partMean(int part) {
    double sum = 0;
    for (int operator = 0; operator < operators.size(); operator++) {
      sum += cellMean(part, operator);
    }
    return sum / operators.size();
  }

  double operatorMean(int operator) {
    double sum = 0;
    for (int part = 0; part < parts.size(); part++) {
      sum += cellMean(part, operator);
    }
    return sum / parts.size();
  }

  /** Of all readings. */
  double mean() {
    double sum = 0;
    for (int part = 0; part < parts.size(); part++) {
      sum += partMean(part);
    }
    return sum / parts.size();
  }

  private static double mean(List<Double> values) {
    return values.stream().mapToDouble(Double::doubleValue).average().orElseThrow();
  }
}
