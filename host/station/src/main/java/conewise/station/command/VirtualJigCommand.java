package conewise.station.command;

import com.fasterxml.jackson.databind.node.ArrayNode;
import com.fasterxml.jackson.databind.node.ObjectNode;
import conewise.simulator.jig.JigSetup;
import conewise.simulator.jig.VirtualJig;
import conewise.simulator.link.LoopbackServer;
import conewise.simulator.link.StreamServer;
import conewise.simulator.world.DemoWorld;
import conewise.simulator.world.World;
import conewise.station.answer.CommandFailure;
import conewise.station.answer.ExitCode;
import conewise.station.answer.JsonAnswer;
import conewise.station.answer.Screen;
import conewise.station.measuring.Worlds;
import java.io.FileDescriptor;
import java.io.FileInputStream;
import java.io.FileOutputStream;
import java.io.IOException;
import java.util.Optional;
import java.util.concurrent.Callable;
import picocli.CommandLine.ArgGroup;
import picocli.CommandLine.Command;
import picocli.CommandLine.Mixin;
import picocli.CommandLine.Option;
import picocli.CommandLine.ParentCommand;

/** {@code virtual-jig}: a jig without hardware, on standard input and output or on a port. */
@Command(
    name = "virtual-jig",
    mixinStandardHelpOptions = true,
    description = "Runs a virtual jig with a box on it, for trying things out and for lessons.")
final class VirtualJigCommand implements Callable<Integer> {
  @ParentCommand private RootCommand root;

  @Mixin private AnswerOptions answer;

  @Option(
      names = "--world",
      paramLabel = "NAME|FILE",
      defaultValue = "heron",
      description = "The box and the bench (default ${DEFAULT-VALUE}).")
  private String world;

  @Option(names = "--seed", paramLabel = "N", description = "The seed of noise and spread.")
  private Optional<Long> seed = Optional.empty();

  @Option(names = "--paced", description = "Keep real time, as a jig on a cable does.")
  private boolean paced;

  @ArgGroup(exclusive = true, multiplicity = "1")
  private Where where;

  /** One of these. */
  static final class Where {
    @Option(names = "--stdio", description = "Serve standard input and output.")
    private boolean stdio;

    @Option(
        names = "--listen",
        paramLabel = "PORT",
        description = "Serve this TCP port of 127.0.0.1; 0 takes any that is free.")
    private Optional<Integer> port = Optional.empty();

    @Option(names = "--list", description = "List the built-in worlds.")
    private boolean list;
  }

  @Override
  public Integer call() throws CommandFailure {
    if (where.list) {
      list();
      return ExitCode.PASS.number();
    }
    World named = Worlds.named(world);
    World chosen = seed.map(named::withSeed).orElse(named);
    VirtualJig jig =
        new VirtualJig(chosen.start(), JigSetup.standard().withSerial(chosen.jigSerial()));
    StreamServer.Pace pace = paced ? StreamServer.Pace.REAL_TIME : StreamServer.Pace.FREE_RUNNING;
    if (where.stdio) {
      new StreamServer(jig, pace)
          .serve(new FileInputStream(FileDescriptor.in), new FileOutputStream(FileDescriptor.out));
    } else {
      listen(jig, pace);
    }
    return ExitCode.PASS.number();
  }

  private void listen(VirtualJig jig, StreamServer.Pace pace) throws CommandFailure {
    int port = where.port.orElseThrow();
    if (port < 0 || port > 65_535) {
      throw new CommandFailure(
          ExitCode.USAGE, "--listen is " + port + "; a port lies from 0 to 65535.");
    }
    try (LoopbackServer server = new LoopbackServer(port, jig, pace)) {
      root.screen().out().println("A virtual jig listens on 127.0.0.1:" + server.port());
      server.serve();
    } catch (IOException e) {
      throw new CommandFailure(ExitCode.NO_JIG, e.getMessage(), e);
    }
  }

  private void list() {
    Screen screen = root.screen();
    if (!answer.json) {
      for (DemoWorld each : DemoWorld.values()) {
        World loaded = each.load();
        screen.out().println(each.worldName());
        screen.out().println("    " + loaded.about());
        screen.out().println("    truth: " + loaded.truth());
      }
      return;
    }
    ObjectNode object = JsonAnswer.of("virtual-jig", ExitCode.PASS);
    ArrayNode worlds = object.putArray("worlds");
    for (DemoWorld each : DemoWorld.values()) {
      World loaded = each.load();
      worlds
          .addObject()
          .put("name", each.worldName())
          .put("about", loaded.about())
          .put("truth", loaded.truth());
    }
    screen.out().println(object);
  }
}
