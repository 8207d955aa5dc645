package conewise.station.command;

import conewise.simulator.world.World;
import conewise.station.answer.CommandFailure;
import conewise.station.answer.ExitCode;
import conewise.station.measuring.JigChoice;
import conewise.station.measuring.Worlds;
import java.util.Optional;
import picocli.CommandLine.ArgGroup;
import picocli.CommandLine.Option;

/** Which jig a command means; without any of these it looks for one. */
final class JigOptions {
  @ArgGroup(exclusive = true)
  private Where where = new Where();

  @Option(
      names = "--seed",
      paramLabel = "N",
      description = "Virtual jig: the seed of its noise and spread.")
  private Optional<Long> seed = Optional.empty();

  /** At most one of these. */
  static final class Where {
    @Option(names = "--port", paramLabel = "NAME", description = "The jig on this serial port.")
    private Optional<String> port = Optional.empty();

    @Option(
        names = "--tcp",
        paramLabel = "HOST:PORT",
        description = "The jig behind this TCP address.")
    private Optional<String> tcp = Optional.empty();

    @Option(
        names = "--virtual",
        paramLabel = "WORLD",
        description = "A virtual jig: a world file, or a built-in world's name.")
    private Optional<String> virtual = Optional.empty();
  }

  /** The virtual jig's world, where one was chosen. */
  Optional<String> virtual() {
    return where.virtual;
  }

  /** What was chosen. */
  JigChoice choice() throws CommandFailure {
    if (seed.isPresent() && where.virtual.isEmpty()) {
      throw new CommandFailure(
          ExitCode.USAGE, "--seed is for a virtual jig; give --virtual WORLD with it.");
    }
    if (where.virtual.isPresent()) {
      World world = Worlds.named(where.virtual.get());
      return new JigChoice.Virtual(seed.map(world::withSeed).orElse(world));
    }
    Optional<JigChoice> named =
        where
            .port
            .<JigChoice>map(JigChoice.OnPort::new)
            .or(() -> where.tcp.map(JigChoice.OnTcp::new));
    return named.orElseGet(JigChoice.Search::new);
  }
}
