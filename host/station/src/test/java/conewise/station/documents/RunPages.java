package conewise.station.documents;

import com.sun.management.OperatingSystemMXBean;
import java.io.IOException;
import java.lang.management.ManagementFactory;
import java.nio.file.Files;
import java.nio.file.Path;
import java.util.ArrayList;
import java.util.Comparator;
import java.util.List;
import java.util.stream.Stream;

/**
 * Runs the pages in a process of its own, whose working folder is a reader's: what is typed is run
 * as it stands, relative names included. Between pages the folder is swept.
 */
final class RunPages {
  private RunPages() {}

  /** The first argument is the repository, the second {@code hold} or {@code write}, then pages. */
  public static void main(String[] arguments) throws IOException {
    Path root = Path.of(arguments[0]);
    int commands = 0;
    List<String> mistakes = new ArrayList<>();
    for (String place : List.of(arguments).subList(2, arguments.length)) {
      clean();
      PageRun run = new PageRun(root, place);
      try {
        run.run();
      } catch (IOException | RuntimeException e) {
        mistakes.add(place + ": " + e);
      }
      commands += run.commands();
      mistakes.addAll(run.mistakes());
      if (arguments[1].equals("write")) {
        run.write();
      }
    }
    long cpu = ManagementFactory.getPlatformMXBean(OperatingSystemMXBean.class).getProcessCpuTime();
    System.out.printf("%d commands run, %.1f s of CPU%n", commands, cpu / 1e9);
    Files.write(Path.of("mistakes.txt"), mistakes);
    System.exit(0);
  }

  /** All but the links into the repository. */
  private static void clean() throws IOException {
    try (Stream<Path> all = Files.walk(Path.of(""))) {
      for (Path each : all.sorted(Comparator.reverseOrder()).toList()) {
        if (!each.toString().isEmpty() && !Files.isSymbolicLink(each)) {
          Files.delete(each);
        }
      }
    }
  }
}
