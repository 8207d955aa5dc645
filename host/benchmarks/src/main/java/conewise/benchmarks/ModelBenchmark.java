package conewise.benchmarks;

import conewise.analysis.model.Air;
import conewise.analysis.model.BoxModel;
import conewise.analysis.model.Circuit;
import conewise.analysis.model.Driver;
import conewise.analysis.model.Inductance;
import conewise.analysis.model.Network;
import conewise.analysis.model.NetworkSolver;
import conewise.analysis.model.Opening;
import conewise.analysis.model.Opening.Leak;
import conewise.analysis.model.Opening.Mounted;
import conewise.analysis.model.Opening.Vent;
import conewise.analysis.model.Space;
import java.util.ArrayList;
import java.util.List;
import java.util.concurrent.TimeUnit;
import org.apache.commons.math3.complex.Complex;
import org.openjdk.jmh.annotations.Benchmark;
import org.openjdk.jmh.annotations.BenchmarkMode;
import org.openjdk.jmh.annotations.Fork;
import org.openjdk.jmh.annotations.Measurement;
import org.openjdk.jmh.annotations.Mode;
import org.openjdk.jmh.annotations.OutputTimeUnit;
import org.openjdk.jmh.annotations.Scope;
import org.openjdk.jmh.annotations.State;
import org.openjdk.jmh.annotations.Warmup;

/**
 * Four drivers of two coils in a vented box, at one frequency: ours beside the library's solvers.
 */
@State(Scope.Thread)
@BenchmarkMode(Mode.AverageTime)
@OutputTimeUnit(TimeUnit.MICROSECONDS)
@Fork(1)
@Warmup(iterations = 3, time = 1)
@Measurement(iterations = 5, time = 1)
public class ModelBenchmark {
  static final int DRIVERS = 4;

  /** Loops of four pairs in parallel, and one space. */
  static final int UNKNOWNS = DRIVERS + 1;

  private final Network network = Network.of(box());
  private final NetworkSolver solver = network.solver(network.nominal());
  private final double[] slopeRe = new double[network.quantities().size()];
  private final double[] slopeIm = new double[network.quantities().size()];
  private final LibraryBox library = new LibraryBox(network.impedance(LibraryBox.CHECK_HZ));
  private double hz = 20;

  private double nextHz() {
    hz = hz > 300 ? 20 : hz * 1.01;
    return hz;
  }

  /** The impedance alone. */
  @Benchmark
  public double impedance() {
    solver.solve(nextHz());
    return solver.resistanceOhm();
  }

  /** The impedance and its slopes by all quantities. */
  @Benchmark
  public double impedanceAndSlopes() {
    solver.solve(nextHz());
    solver.slopes(slopeRe, slopeIm);
    return slopeRe[0];
  }

  /** The impedance alone by the library's decomposition over complex numbers. */
  @Benchmark
  public Complex libraryOverComplexNumbers() {
    return library.overComplexNumbers(nextHz());
  }

  /** The same over real numbers, with a system of twice the size. */
  @Benchmark
  public Complex libraryOverRealNumbers() {
    return library.overRealNumbers(nextHz());
  }

  private static BoxModel box() {
    Driver driver =
        Driver.of(LibraryBox.FS, LibraryBox.QMS, LibraryBox.QES, LibraryBox.VAS, 2, LibraryBox.OHM)
            .withInductance(Inductance.plain(LibraryBox.HENRY), 0);
    List<Opening> openings = new ArrayList<>();
    List<Circuit> pairs = new ArrayList<>();
    for (int d = 0; d < DRIVERS; d++) {
      openings.add(new Mounted("d" + d, driver, "main", Space.OUTSIDE));
      pairs.add(Circuit.series(Circuit.coil("d" + d, 1), Circuit.coil("d" + d, 2)));
    }
    openings.add(new Vent("vent", LibraryBox.TUNING, LibraryBox.VENT_Q, "main", Space.OUTSIDE));
    openings.add(new Leak("leak", LibraryBox.LEAK_Q, "main", Space.OUTSIDE));
    return new BoxModel(
        Air.AT_20_CELSIUS,
        List.of(new Space("main", LibraryBox.VOLUME)),
        openings,
        new Circuit.Parallel(pairs));
  }
}
