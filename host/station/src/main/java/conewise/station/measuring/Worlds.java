package conewise.station.measuring;

import conewise.simulator.world.DemoWorld;
import conewise.simulator.world.World;
import conewise.simulator.world.WorldFile;
import conewise.simulator.world.WorldFileException;
import conewise.station.answer.CommandFailure;
import conewise.station.answer.ExitCode;
import java.nio.file.Files;
import java.nio.file.Path;
import java.util.Arrays;
import java.util.stream.Collectors;

/** Finds the worlds that a virtual jig can measure. */
public final class Worlds {
  private Worlds() {}

  /**
   * A built-in world by its name, or a world in a file.
   *
   * @param nameOrFile a built-in world's name, else a file's path
   * @throws CommandFailure with {@link ExitCode#BAD_DATA} when it is neither, or the file is no
   *     world
   */
  public static World named(String nameOrFile) throws CommandFailure {
    for (DemoWorld world : DemoWorld.values()) {
      if (world.worldName().equals(nameOrFile)) {
        return world.load();
      }
    }
    Path file = Path.of(nameOrFile);
    if (!Files.exists(file)) {
      String names =
          Arrays.stream(DemoWorld.values())
              .map(DemoWorld::worldName)
              .collect(Collectors.joining(", "));
      throw new CommandFailure(
          ExitCode.BAD_DATA,
          "\""
              + nameOrFile
              + "\" is neither a world file nor a built-in world; those are "
              + names
              + ".");
    }
    try {
      return WorldFile.read(file);
    } catch (WorldFileException bad) {
      throw new CommandFailure(ExitCode.BAD_DATA, bad.getMessage(), bad);
    }
  }
}
