package conewise.station.shift;

import conewise.analysis.plan.PlannedBox;
import conewise.station.files.BadFileException;
import conewise.station.planfile.PlannedBoxFile;
import conewise.station.shift.BenchState.Job;
import java.io.IOException;
import java.nio.file.DirectoryStream;
import java.nio.file.Files;
import java.nio.file.Path;
import java.util.LinkedHashMap;
import java.util.List;
import java.util.Map;
import java.util.Optional;
import java.util.TreeMap;

/** The jobs that a bench may be set to: each a plan, by the name of its file. */
public final class JobShelf {
  private final Map<Job, Path> plans = new LinkedHashMap<>();

  private JobShelf(Map<String, Path> files) throws BadFileException {
    for (Map.Entry<String, Path> each : new TreeMap<>(files).entrySet()) {
      PlannedBox box = PlannedBoxFile.read(each.getValue());
      plans.put(new Job(each.getKey(), box.name()), each.getValue());
    }
  }

  /**
   * The plans of a folder, {@code .yaml}, {@code .yml} and {@code .json}.
   *
   * @throws BadFileException when one of them has mistakes, or there is none
   */
  public static JobShelf in(Path folder) throws BadFileException {
    Map<String, Path> files = new TreeMap<>();
    try (DirectoryStream<Path> plans = Files.newDirectoryStream(folder, "*.{yaml,yml,json}")) {
      for (Path plan : plans) {
        String name = plan.getFileName().toString();
        files.put(name.substring(0, name.lastIndexOf('.')), plan);
      }
    } catch (IOException e) {
      throw new BadFileException(
          folder + " is no folder that can be read; name the folder of the plans.");
    }
    if (files.isEmpty()) {
      throw new BadFileException(
          folder + " holds no plan (.yaml or .json); put a plan of each job there.");
    }
    return new JobShelf(files);
  }

  /** The plans that come with the application, by their names. */
  public static JobShelf bundled() throws BadFileException {
    Map<String, Path> files = new TreeMap<>();
    PlannedBoxFile.BUNDLED.forEach(name -> files.put(name, Path.of(name)));
    return new JobShelf(files);
  }

  /** All jobs, by their codes. */
  List<Job> jobs() {
    return List.copyOf(plans.keySet());
  }

  Path plan(Job job) {
    return plans.get(job);
  }

  /** The job of a code, upper and lower case alike. */
  Optional<Job> job(String code) {
    return plans.keySet().stream().filter(job -> job.code().equalsIgnoreCase(code)).findFirst();
  }
}
