package conewise.simulator.world;

import conewise.simulator.analog.BoardModel;
import java.io.PrintStream;
import java.nio.file.Path;
import java.util.Arrays;
import java.util.Optional;
import java.util.stream.Collectors;

/** Writes a world as the model file that the emulated board reads, to standard output. */
public final class ModelExport {
  private static final int USAGE = 2;

  private ModelExport() {}

  /**
   * Arguments: the name of a demo world, or a world file. Exits with 2 and one sentence if neither.
   */
  public static void main(String[] arguments) {
    System.exit(run(arguments, System.out, System.err));
  }

  static int run(String[] arguments, PrintStream out, PrintStream err) {
    if (arguments.length != 1) {
      err.println("Give one argument: a world file or one of " + names() + ".");
      return USAGE;
    }
    try {
      World world = find(arguments[0]);
      out.print(BoardModel.text(world.box(), world.jig(), world.seed()));
      out.flush();
      return 0;
    } catch (WorldFileException | IllegalArgumentException problem) {
      err.println(problem.getMessage());
      return USAGE;
    }
  }

  private static World find(String name) {
    Optional<DemoWorld> demo =
        Arrays.stream(DemoWorld.values())
            .filter(world -> world.worldName().equals(name))
            .findFirst();
    return demo.map(DemoWorld::load).orElseGet(() -> WorldFile.read(Path.of(name)));
  }

  private static String names() {
    return Arrays.stream(DemoWorld.values())
        .map(DemoWorld::worldName)
        .collect(Collectors.joining(", "));
  }
}
