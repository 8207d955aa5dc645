package conewise.station.command;

import conewise.analysis.diagnosis.Motion;
import conewise.analysis.diagnosis.Observation;
import conewise.analysis.plan.PlannedBox;
import conewise.station.answer.CommandFailure;
import conewise.station.answer.ExitCode;
import conewise.station.card.JobCard;
import conewise.station.files.BadFileException;
import conewise.station.pop.MotionWords;
import conewise.station.pop.PopFile;
import conewise.station.pop.PopRecord;
import java.nio.file.Path;
import java.util.ArrayList;
import java.util.LinkedHashMap;
import java.util.List;
import java.util.Map;
import java.util.Optional;
import java.util.stream.Collectors;
import picocli.CommandLine.Option;

/** What a pop test showed of a box: said on the command line, or kept in a file by {@code pop}. */
final class PopOptions {
  @Option(
      names = "--pop",
      paramLabel = "DRIVER=MOTION",
      description =
          "What a driver's cone did in the pop test, + to +: out, in or hardly; may be repeated.")
  private List<String> pop = List.of();

  @Option(
      names = "--pops",
      paramLabel = "FILE",
      description = "The pop test of this box, as the command pop wrote it.")
  private Optional<Path> file = Optional.empty();

  /** What was seen, and how a job card tells of it. */
  record Seen(List<Observation> observations, Optional<JobCard.Fact> fact) {
    Seen {
      observations = List.copyOf(observations);
    }
  }

  /**
   * Reads all of it.
   *
   * @param serial the number of the box that is judged, where known
   */
  Seen read(PlannedBox plan, Optional<String> serial) throws CommandFailure, BadFileException {
    Map<String, Motion> said = motions("--pop", plan, pop);
    List<Observation> seen = new ArrayList<>();
    said.forEach((driver, motion) -> seen.add(new Observation.Pop(driver, motion)));
    List<String> told = new ArrayList<>();
    if (!said.isEmpty()) {
      told.add(
          said.entrySet().stream()
              .map(each -> each.getKey() + " " + MotionWords.of(each.getValue()))
              .collect(Collectors.joining(", ")));
    }
    if (file.isPresent()) {
      PopRecord record = PopFile.read(file.get(), plan);
      requireSameBox(record, serial);
      requireSaidOnce(record, said);
      seen.addAll(record.observations());
      told.add(record.words());
    }
    return new Seen(
        seen,
        told.isEmpty()
            ? Optional.empty()
            : Optional.of(new JobCard.Fact("Pop test", String.join("; ", told))));
  }

  private void requireSameBox(PopRecord record, Optional<String> serial) throws CommandFailure {
    if (serial.isPresent() && !record.serial().equals(serial)) {
      throw new CommandFailure(
          ExitCode.BAD_DATA,
          file.get()
              + " is of "
              + record.serial().map(own -> "box " + own).orElse("a box without a number")
              + ", and this is box "
              + serial.get()
              + "; make the pop test of this box with --serial "
              + serial.get()
              + ".");
    }
  }

  private static void requireSaidOnce(PopRecord record, Map<String, Motion> said)
      throws CommandFailure {
    for (String driver : record.motions().keySet()) {
      if (said.containsKey(driver)) {
        throw new CommandFailure(
            ExitCode.USAGE,
            "Driver "
                + driver
                + " stands in --pops and in --pop; one test counts once: leave one of them out.");
      }
    }
  }

  /**
   * Reads words like {@code left=out}.
   *
   * @param option the option's name, for mistakes
   */
  static Map<String, Motion> motions(String option, PlannedBox plan, List<String> texts)
      throws CommandFailure {
    List<String> drivers = plan.drivers().stream().map(PlannedBox.PlacedDriver::name).toList();
    Map<String, Motion> motions = new LinkedHashMap<>();
    for (String text : texts) {
      int sign = text.lastIndexOf('=');
      String driver = sign < 0 ? "" : text.substring(0, sign);
      Optional<Motion> motion = MotionWords.read(text.substring(sign + 1));
      if (!drivers.contains(driver) || motion.isEmpty()) {
        throw new CommandFailure(
            ExitCode.USAGE,
            option
                + " \""
                + text
                + "\" wants a driver of the plan ("
                + String.join(", ", drivers)
                + "), an equals sign and out, in or hardly; write it like "
                + option
                + " "
                + drivers.get(0)
                + "=out.");
      }
      if (motions.put(driver, motion.get()) != null) {
        throw new CommandFailure(
            ExitCode.USAGE, option + " names driver " + driver + " twice; give it once.");
      }
    }
    return motions;
  }
}
