package conewise.station.measuring;

import conewise.jig.client.JigClient;
import conewise.jig.client.JigFaultException;
import conewise.jig.client.JigListener;
import conewise.jig.conformance.Conformance;
import conewise.jig.serial.JigFinder;
import conewise.jig.serial.SerialLink;
import conewise.jig.serial.SerialPorts;
import conewise.jig.serial.TcpLink;
import conewise.protocol.link.ByteLink;
import conewise.protocol.link.LinkLostException;
import conewise.simulator.jig.JigSetup;
import conewise.simulator.jig.VirtualJig;
import conewise.simulator.link.MemoryLink;
import conewise.simulator.world.World;
import conewise.station.answer.CommandFailure;
import conewise.station.answer.ExitCode;
import conewise.station.answer.ProgressLine;
import conewise.station.card.PlainText;
import java.util.Optional;
import java.util.stream.Collectors;

/** Which jig is meant. */
public sealed interface JigChoice {

  /**
   * Reaches the jig. Bounded in time: some seconds a port.
   *
   * @param progress told what is being tried
   * @return the jig, which the caller closes
   * @throws CommandFailure with {@link ExitCode#NO_JIG} when there is none, it does not answer, or
   *     it cannot be told which of several is meant
   */
  JigClient connect(ProgressLine progress) throws CommandFailure;

  /** How to open a link to it, each time to a jig that starts afresh; none where it is searched. */
  default Optional<Conformance.Fresh> fresh() {
    return Optional.empty();
  }

  /** The jig on a serial port. */
  record OnPort(String name) implements JigChoice {
    @Override
    public JigClient connect(ProgressLine progress) throws CommandFailure {
      progress.show(0, "opening " + name);
      return meet(() -> SerialLink.open(name));
    }

    @Override
    public Optional<Conformance.Fresh> fresh() {
      return Optional.of(() -> SerialLink.open(name));
    }
  }

  /** A jig behind a TCP address, {@code host:port}. */
  record OnTcp(String address) implements JigChoice {
    @Override
    public JigClient connect(ProgressLine progress) throws CommandFailure {
      progress.show(0, "reaching " + address);
      return meet(() -> TcpLink.connect(address));
    }

    @Override
    public Optional<Conformance.Fresh> fresh() {
      return Optional.of(() -> TcpLink.connect(address));
    }
  }

  /** A virtual jig in this process, in simulated time. */
  record Virtual(World world) implements JigChoice {
    @Override
    public JigClient connect(ProgressLine progress) throws CommandFailure {
      return meet(this::open);
    }

    @Override
    public Optional<Conformance.Fresh> fresh() {
      return Optional.of(this::open);
    }

    private ByteLink open() {
      return new MemoryLink(
          new VirtualJig(world.start(), JigSetup.standard().withSerial(world.jigSerial())));
    }
  }

  /** The one jig on this machine, found by asking each port. */
  record Search() implements JigChoice {
    @Override
    public JigClient connect(ProgressLine progress) throws CommandFailure {
      JigFinder finder = new JigFinder(SerialLink::open, JigListener.NONE);
      JigFinder.Result result =
          finder.search(
              SerialPorts.list(), port -> progress.show(0, "looking for a jig on " + port.name()));
      if (result instanceof JigFinder.Found found) {
        return found.client();
      }
      String sentence =
          result instanceof JigFinder.Several several
              ? several.sentence() + " Use --port NAME."
              : ((JigFinder.None) result).sentence() + " Or name one by --port, --tcp, --virtual.";
      String said =
          result.reports().stream()
              .map(report -> " " + report.port().name() + ": " + report.sentence())
              .collect(Collectors.joining());
      throw new CommandFailure(ExitCode.NO_JIG, sentence + said);
    }
  }

  /** Opens a link. */
  @FunctionalInterface
  interface Opening {
    /** Opens. */
    ByteLink open() throws LinkLostException;
  }

  private static JigClient meet(Opening opening) throws CommandFailure {
    try {
      return JigClient.connect(opening.open(), JigListener.NONE);
    } catch (IllegalArgumentException misnamed) {
      throw new CommandFailure(ExitCode.USAGE, PlainText.tame(misnamed.getMessage()), misnamed);
    } catch (LinkLostException closed) {
      throw new CommandFailure(ExitCode.NO_JIG, closed.getMessage(), closed);
    } catch (JigFaultException failed) {
      throw new CommandFailure(
          ExitCode.NO_JIG, failed.fault().sentence() + " " + failed.fault().nextStep(), failed);
    }
  }
}
