package conewise.station.outside;

import static org.junit.jupiter.api.Assertions.assertEquals;
import static org.junit.jupiter.api.Assertions.assertTrue;

import conewise.simulator.box.Air;
import conewise.simulator.box.Box;
import conewise.simulator.box.BoxBuilder;
import conewise.simulator.box.Coil;
import conewise.simulator.box.Driver;
import conewise.simulator.box.Inductance;
import conewise.simulator.box.Wiring;
import java.nio.file.Files;
import java.nio.file.Path;
import java.util.ArrayList;
import java.util.List;
import java.util.Locale;
import java.util.NavigableMap;
import java.util.TreeMap;
import java.util.concurrent.TimeUnit;
import org.apache.commons.math3.complex.Complex;
import org.junit.jupiter.api.Assumptions;
import org.junit.jupiter.api.BeforeEach;
import org.junit.jupiter.api.Test;
import org.junit.jupiter.api.io.TempDir;

/**
 * Whole curves of ngspice (AC analysis of the electrical, mechanical and acoustical circuit,
 * written here from the analogies alone) against impedance measured through the protocol.
 */
class NgspiceTest {
  private static final Path NGSPICE = Path.of("/usr/bin/ngspice");
  private static final double RE = 5.8;
  private static final double LE = 0.0006;
  private static final double MMS = 0.030;
  private static final double CMS = 0.8e-3;
  private static final double RMS = 1.2;
  private static final double BL = 9.0;
  private static final double AREA = 0.0215;
  private static final double VOLUME_LITRE = 30;
  private static final double TUNING_HZ = 38;
  private static final double VENT_QUALITY = 40;

  @TempDir Path folder;

  @BeforeEach
  void requireNgspice() {
    boolean present = Files.isExecutable(NGSPICE);
    assertTrue(present || !"true".equals(System.getenv("CI")), "ngspice is missing");
    Assumptions.assumeTrue(present, "ngspice is missing");
  }

  @Test
  void aSealedBox() throws Exception {
    compare(box(1, false, false), netlist(1, false, false), "ngspice, sealed");
  }

  @Test
  void aVentedBox() throws Exception {
    compare(box(1, true, false), netlist(1, true, false), "ngspice, vented");
  }

  @Test
  void twoDriversInAVentedBoxOneReversed() throws Exception {
    compare(box(2, true, true), netlist(2, true, true), "ngspice, vented, one of two reversed");
  }

  private void compare(Box box, String netlist, String what) throws Exception {
    NavigableMap<Double, Complex> spice = run(netlist);
    MeasuredCurve.of(box)
        .assertEqualTo(
            hz -> {
              double near = spice.ceilingKey(hz * (1 - 1e-6));
              assertEquals(hz, near, 1e-4 * hz, "ngspice computed no such frequency");
              return spice.get(near);
            },
            what);
  }

  private static Box box(int drivers, boolean vented, boolean oneReversed) {
    Driver driver =
        new Driver(MMS, CMS, RMS, AREA, List.of(new Coil(RE, BL)), Inductance.plain(LE), 0);
    BoxBuilder builder = Box.in(Air.ROOM).space("main", VOLUME_LITRE);
    List<Wiring> leads = new ArrayList<>();
    for (int i = 0; i < drivers; i++) {
      builder.driver("d" + i, driver, "main");
      leads.add(new Wiring.CoilLeads("d" + i, 1, oneReversed && i > 0, Wiring.CoilState.SOUND));
    }
    if (vented) {
      builder.vent("port", "main", TUNING_HZ, VENT_QUALITY);
    }
    return builder.wired(drivers == 1 ? leads.get(0) : new Wiring.Parallel(leads));
  }

  /** Force and velocity as voltage and current of a loop, pressure and volume flow likewise. */
  private String netlist(int drivers, boolean vented, boolean oneReversed) {
    double compliance = VOLUME_LITRE * 1e-3 / (1.204 * 343.2 * 343.2);
    StringBuilder net = new StringBuilder("box\nVin in 0 AC 1\n");
    for (int i = 0; i < drivers; i++) {
      double bl = oneReversed && i > 0 ? -BL : BL;
      line(net, "Re%d in a%d %.12g", i, i, RE);
      line(net, "Le%d a%d b%d %.12g", i, i, i, LE);
      line(net, "Vi%d b%d c%d 0", i, i, i);
      line(net, "Hemf%d c%d 0 Vv%d %.12g", i, i, i, bl);
      line(net, "Hforce%d f%d 0 Vi%d %.12g", i, i, i, bl);
      line(net, "Rms%d f%d g%d %.12g", i, i, i, RMS);
      line(net, "Lmms%d g%d h%d %.12g", i, i, i, MMS);
      line(net, "Ccms%d h%d k%d %.12g", i, i, i, CMS);
      line(net, "Vv%d k%d l%d 0", i, i, i);
      line(net, "Epress%d l%d 0 p 0 %.12g", i, i, AREA);
      line(net, "Fflow%d 0 p Vv%d %.12g", i, i, AREA);
    }
    line(net, "Cbox p 0 %.12g", compliance);
    line(net, "Rdc p 0 1e15");
    if (vented) {
      double omega = 2 * Math.PI * TUNING_HZ;
      double mass = 1 / (omega * omega * compliance);
      line(net, "Lvent p q %.12g", mass);
      line(net, "Rvent q 0 %.12g", omega * mass / VENT_QUALITY);
    }
    double lineHz = 1 / 1.048576;
    line(net, ".ac lin 430 %.12g %.12g", lineHz, 430 * lineHz);
    line(net, ".control\nset wr_vecnames\nset numdgt=9\nrun");
    line(net, "wrdata %s i(Vin)\n.endc\n.end", folder.resolve("out.txt"));
    return net.toString();
  }

  private static void line(StringBuilder net, String format, Object... values) {
    net.append(String.format(Locale.ROOT, format, values)).append('\n');
  }

  private NavigableMap<Double, Complex> run(String netlist) throws Exception {
    Path file = Files.writeString(folder.resolve("box.cir"), netlist);
    Path log = folder.resolve("log.txt");
    Process process =
        new ProcessBuilder(NGSPICE.toString(), "-b", file.toString())
            .redirectErrorStream(true)
            .redirectOutput(log.toFile())
            .start();
    if (!process.waitFor(60, TimeUnit.SECONDS)) {
      process.destroyForcibly();
      throw new AssertionError("ngspice did not end within 60 s");
    }
    NavigableMap<Double, Complex> curve = new TreeMap<>();
    Path out = folder.resolve("out.txt");
    assertTrue(Files.exists(out), () -> "ngspice wrote nothing; see " + log);
    for (String row : Files.readAllLines(out)) {
      String[] cells = row.trim().split("\\s+", -1);
      if (cells.length >= 3 && Character.isDigit(cells[0].charAt(0))) {
        Complex current = new Complex(Double.parseDouble(cells[1]), Double.parseDouble(cells[2]));
        curve.put(Double.parseDouble(cells[0]), current.negate().reciprocal());
      }
    }
    return curve;
  }
}
