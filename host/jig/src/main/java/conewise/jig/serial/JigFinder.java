package conewise.jig.serial;

import conewise.jig.client.JigClient;
import conewise.jig.client.JigFault;
import conewise.jig.client.JigFaultException;
import conewise.jig.client.JigListener;
import conewise.protocol.JigIdentity;
import conewise.protocol.link.ByteLink;
import conewise.protocol.link.LinkLostException;
import java.util.ArrayList;
import java.util.List;
import java.util.function.Consumer;

/**
 * Finds the jig by asking each port in turn. Ports that look like a jig's are asked first; the
 * others only when none of those is one. Opening a port resets many boards, so each port is given
 * up to 5 s to answer, and 5 s to open; whatever else is there is left alone after that.
 */
public final class JigFinder {

  /** Opens a port by its name. */
  @FunctionalInterface
  public interface Opener {

    /**
     * Opens a port.
     *
     * @throws LinkLostException when the port does not open: absent, in use, not permitted
     */
    ByteLink open(String portName) throws LinkLostException;
  }

  /**
   * What a port said.
   *
   * @param port which port
   * @param isJig whether a jig of our protocol answered
   * @param sentence what it said or why it did not, in one sentence
   */
  public record PortReport(PortInfo port, boolean isJig, String sentence) {}

  /** What a search came to. */
  public sealed interface Result {

    /** What each port that was asked said, in the order asked. */
    List<PortReport> reports();
  }

  /**
   * One jig, connected; whoever asked closes it.
   *
   * @param client the jig
   * @param port the port that it is on
   * @param reports what was found on each port that was looked at
   */
  public record Found(JigClient client, PortInfo port, List<PortReport> reports) implements Result {
    public Found {
      reports = List.copyOf(reports);
    }
  }

  /**
   * Several jigs; all were let go of.
   *
   * @param ports the ports that jigs are on, at least two
   * @param reports what was found on each port that was looked at
   */
  public record Several(List<PortInfo> ports, List<PortReport> reports) implements Result {
    public Several {
      ports = List.copyOf(ports);
      reports = List.copyOf(reports);
    }

    /** What to tell a person. */
    public String sentence() {
      return "There are "
          + ports.size()
          + " jigs, on "
          + String.join(" and ", ports.stream().map(PortInfo::name).toList())
          + "; name the port of the one to use.";
    }
  }

  /**
   * No jig.
   *
   * @param reports what was found on each port that was looked at
   */
  public record None(List<PortReport> reports) implements Result {
    public None {
      reports = List.copyOf(reports);
    }

    /** What to tell a person. */
    public String sentence() {
      if (reports.isEmpty()) {
        return "No jig was found: this machine has no serial port; plug the jig in.";
      }
      return "No jig was found on "
          + reports.size()
          + (reports.size() == 1 ? " port" : " ports")
          + "; plug the jig in, or name its port.";
    }
  }

  private final Opener opener;
  private final JigListener listener;

  /**
   * A finder; it opens nothing yet.
   *
   * @param opener opens a port, e.g. {@code SerialLink::open}
   * @param listener hears what the jig that is found says unasked
   */
  public JigFinder(Opener opener, JigListener listener) {
    this.opener = opener;
    this.listener = listener;
  }

  /**
   * Asks the ports given.
   *
   * @param ports the ports to ask, e.g. {@link SerialPorts#list()}
   * @param progress told the name of each port before it is asked
   */
  public Result search(List<PortInfo> ports, Consumer<PortInfo> progress) {
    Search search = new Search();
    ports.stream().filter(PortInfo::likely).forEach(port -> search.ask(port, progress));
    if (search.jigs.isEmpty()) {
      ports.stream().filter(port -> !port.likely()).forEach(port -> search.ask(port, progress));
    }
    return search.result();
  }

  private final class Search {
    private final List<PortReport> reports = new ArrayList<>();
    private final List<Found> jigs = new ArrayList<>();

    void ask(PortInfo port, Consumer<PortInfo> progress) {
      progress.accept(port);
      try {
        JigClient client = JigClient.connect(opener.open(port.name()), listener);
        reports.add(new PortReport(port, true, greeting(client.identity())));
        jigs.add(new Found(client, port, List.of()));
      } catch (LinkLostException closed) {
        reports.add(new PortReport(port, false, closed.getMessage()));
      } catch (JigFaultException failed) {
        JigFault fault = failed.fault();
        reports.add(new PortReport(port, false, fault.sentence() + " " + fault.nextStep()));
      }
    }

    Result result() {
      if (jigs.size() == 1) {
        return new Found(jigs.get(0).client(), jigs.get(0).port(), reports);
      }
      jigs.forEach(jig -> jig.client().close());
      return jigs.isEmpty()
          ? new None(reports)
          : new Several(jigs.stream().map(Found::port).toList(), reports);
    }
  }

  private static String greeting(JigIdentity identity) {
    JigIdentity.Jig jig = identity.jig();
    return "A jig: board "
        + jig.board()
        + ", firmware "
        + jig.firmware()
        + ", serial "
        + jig.serial().orElse("none")
        + ".";
  }
}
