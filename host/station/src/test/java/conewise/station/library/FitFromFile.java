package conewise.station.library;

import conewise.analysis.impedance.ImpedanceCurve;
import conewise.analysis.impedance.ImpedancePoint;
import conewise.analysis.outcome.Outcome;
import conewise.analysis.parameter.DriverFigures;
import conewise.analysis.parameter.DriverMeasurement;
import java.io.IOException;
import java.nio.file.Files;
import java.nio.file.Path;
import java.util.List;
import java.util.Optional;

/** Fits a bare driver to a table of one's own. */
final class FitFromFile {
  private FitFromFile() {}

  // begin: fit a curve from a file
  static Outcome<DriverFigures> figures(Path file, int coils) throws IOException {
    List<ImpedancePoint> points =
        Files.readAllLines(file).stream()
            .filter(line -> line.matches("[0-9].*"))
            .map(line -> line.split(",", -1))
            .map(
                cells ->
                    new ImpedancePoint(
                        Double.parseDouble(cells[0]),
                        Double.parseDouble(cells[1]),
                        Double.parseDouble(cells[2]),
                        Optional.empty()))
            .toList();
    return DriverMeasurement.freeAir(new ImpedanceCurve(points), coils).figures();
  }
  // end
}
