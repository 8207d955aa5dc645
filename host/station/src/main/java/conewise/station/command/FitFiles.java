package conewise.station.command;

import com.fasterxml.jackson.databind.node.ObjectNode;
import conewise.analysis.fit.BoxFit;
import conewise.analysis.impedance.ImpedanceCurve;
import conewise.analysis.impedance.ImpedancePoint;
import conewise.analysis.model.BoxModel;
import conewise.analysis.netlist.SpiceSubcircuit;
import conewise.analysis.outcome.Outcome;
import conewise.analysis.outcome.Outcome.Found;
import conewise.analysis.outcome.Outcome.NoResult;
import conewise.station.answer.CommandFailure;
import conewise.station.answer.ExitCode;
import conewise.station.files.BadFileException;
import conewise.station.files.Existing;
import conewise.station.files.NewFile;
import java.nio.file.Path;
import java.util.ArrayList;
import java.util.List;
import java.util.Locale;
import java.util.Optional;
import java.util.function.Supplier;
import picocli.CommandLine.Option;

/** What a fit leaves beside its answer. */
final class FitFiles {
  @Option(
      names = "--report",
      paramLabel = "FILE",
      description = "Write a page with curves, residuals, Nyquist plot and table here (.html).")
  private Optional<Path> report = Optional.empty();

  @Option(
      names = "--spice",
      paramLabel = "FILE",
      description = "Write what was fitted as a SPICE subcircuit here (.cir).")
  private Optional<Path> spice = Optional.empty();

  /** A file that was written. */
  sealed interface Written {
    String sentence();

    void addTo(ObjectNode answer);
  }

  private record Report(Path file) implements Written {
    @Override
    public String sentence() {
      return "The report is in " + file;
    }

    @Override
    public void addTo(ObjectNode answer) {
      answer.put("report", file.toString());
    }
  }

  private record Spice(Path file, SpiceSubcircuit circuit) implements Written {
    @Override
    public String sentence() {
      return String.format(
          Locale.ROOT,
          "The subcircuit is in %s%n  %s, at most %.2g %% and %.2g degrees off the fit",
          file,
          circuit.name(),
          100 * circuit.worstRelative(),
          circuit.worstDegrees());
    }

    @Override
    public void addTo(ObjectNode answer) {
      answer
          .putObject("spice")
          .put("file", file.toString())
          .put("subcircuit", circuit.name())
          .put("worst_relative", circuit.worstRelative())
          .put("worst_degrees", circuit.worstDegrees());
    }
  }

  /** Refuses to write over what is to be read, before anything takes time. */
  void requireApart(List<Path> inputs) throws CommandFailure {
    List<Path> outputs = new ArrayList<>();
    report.ifPresent(outputs::add);
    spice.ifPresent(outputs::add);
    List<Path> taken =
        new ArrayList<>(inputs.stream().map(path -> path.toAbsolutePath().normalize()).toList());
    for (Path output : outputs) {
      Path absolute = output.toAbsolutePath().normalize();
      if (taken.contains(absolute)) {
        throw new CommandFailure(
            ExitCode.USAGE,
            output + " is named twice, to be written and for something else; choose another name.");
      }
      taken.add(absolute);
    }
  }

  /**
   * Writes what was asked for; files that are there already are replaced.
   *
   * @param title what was fitted
   * @param page the report, made only where it is asked for
   */
  List<Written> write(String title, BoxFit fit, Supplier<String> page) throws CommandFailure {
    List<Written> written = new ArrayList<>();
    if (spice.isPresent()) {
      SpiceSubcircuit circuit = circuit(title, fit);
      write(spice.get(), circuit.text());
      written.add(new Spice(spice.get(), circuit));
    }
    if (report.isPresent()) {
      write(report.get(), page.get());
      written.add(new Report(report.get()));
    }
    return written;
  }

  private static void write(Path file, String text) throws CommandFailure {
    try {
      NewFile.writeText(file, Existing.REPLACE, text);
    } catch (BadFileException bad) {
      throw new CommandFailure(ExitCode.CANNOT_WRITE, bad.getMessage(), bad);
    }
  }

  private static SpiceSubcircuit circuit(String title, BoxFit fit) throws CommandFailure {
    BoxModel box = fit.sweeps().get(0).model();
    ImpedanceCurve curve = fit.sweeps().get(0).curve();
    double lowestHz =
        curve.points().stream()
            .mapToDouble(ImpedancePoint::frequencyHz)
            .filter(hz -> hz > 0)
            .min()
            .orElseThrow();
    String scale =
        String.format(Locale.ROOT, "The measured curve is %.5f times this impedance.", fit.scale());
    Outcome<SpiceSubcircuit> outcome =
        SpiceSubcircuit.of(title, box, fit::value, lowestHz, curve.highestHz(), List.of(scale));
    if (outcome instanceof NoResult<SpiceSubcircuit> none) {
      throw new CommandFailure(
          ExitCode.NOT_JUDGED,
          "No subcircuit was written: " + none.because() + "; leave --spice out.");
    }
    return ((Found<SpiceSubcircuit>) outcome).value();
  }
}
