package conewise.jig.workbench;

import conewise.jig.client.JigClient;
import conewise.jig.client.JigFaultException;
import conewise.jig.client.JigListener;
import conewise.simulator.analog.JigImperfections;
import conewise.simulator.analog.VirtualAnalog;
import conewise.simulator.box.Box;
import conewise.simulator.box.Wiring;
import conewise.simulator.jig.JigSetup;
import conewise.simulator.jig.VirtualJig;
import conewise.simulator.link.LinkFaults;
import conewise.simulator.link.MemoryLink;
import java.util.List;

/** Virtual jigs for tests: a load, a jig's imperfections, a link's faults. */
public record Workbench(
    Box box, JigImperfections imperfections, JigSetup setup, LinkFaults faults, long seed) {

  public static Workbench of(Box box) {
    return new Workbench(box, JigImperfections.ideal(), JigSetup.standard(), LinkFaults.none(), 1);
  }

  public static Workbench resistor(double ohm) {
    return of(Box.load(new Wiring.Resistance(ohm)));
  }

  public static Workbench open() {
    return of(Box.load(new Wiring.OpenCircuit()));
  }

  public static Workbench shorted() {
    return of(Box.load(new Wiring.Link()));
  }

  public static Workbench coil(double ohm, double henry) {
    return of(
        Box.load(
            new Wiring.Series(List.of(new Wiring.Resistance(ohm), new Wiring.Inductor(henry)))));
  }

  public Workbench with(JigImperfections other) {
    return new Workbench(box, other, setup, faults, seed);
  }

  public Workbench with(Box other) {
    return new Workbench(other, imperfections, setup, faults, seed);
  }

  public Workbench with(JigSetup other) {
    return new Workbench(box, imperfections, other, faults, seed);
  }

  public Workbench with(LinkFaults other) {
    return new Workbench(box, imperfections, setup, other, seed);
  }

  public Workbench withSeed(long other) {
    return new Workbench(box, imperfections, setup, faults, other);
  }

  public MemoryLink link() {
    return new MemoryLink(
        new VirtualJig(new VirtualAnalog(box, imperfections, seed), setup), faults);
  }

  public JigClient connect() throws JigFaultException {
    return JigClient.connect(link(), JigListener.NONE);
  }
}
