package conewise.station.command;

import conewise.analysis.impedance.ImpedanceCurve;
import conewise.analysis.outcome.Outcome;
import conewise.analysis.sampling.Capture;
import conewise.jig.sweep.SweepResult;
import conewise.station.answer.CommandFailure;
import conewise.station.answer.ExitCode;
import conewise.station.files.BadFileException;
import conewise.station.files.CaptureTable;
import conewise.station.files.Existing;
import conewise.station.files.ImpedanceTable;
import conewise.station.files.TouchstoneFile;
import java.nio.file.Files;
import java.nio.file.Path;
import java.util.ArrayList;
import java.util.List;
import java.util.Locale;
import java.util.Optional;
import picocli.CommandLine.Option;

/** Where a sweep's results go. */
final class SweepFiles {
  @Option(names = "--out", paramLabel = "FILE", description = "Write the curve here: .csv or .s1p.")
  private Optional<Path> out = Optional.empty();

  @Option(
      names = "--raw",
      paramLabel = "FILE",
      description = "Write the raw capture here (.csv); several become FILE-001.csv and so on.")
  private Optional<Path> raw = Optional.empty();

  @Option(names = "--overwrite", description = "Replace files that are there already.")
  private boolean overwrite;

  /** Refuses what cannot be written in the end before the sweep takes anybody's time. */
  void requireFree() throws CommandFailure {
    if (out.isPresent() && !ending(out.get()).equals("csv") && !ending(out.get()).equals("s1p")) {
      throw new CommandFailure(
          ExitCode.USAGE, "--out is \"" + out.get() + "\"; its name must end in .csv or .s1p.");
    }
    if (out.isPresent()) {
      requireFree(out.get());
    }
    if (raw.isPresent()) {
      requireFree(raw.get());
    }
  }

  private void requireFree(Path file) throws CommandFailure {
    if (!overwrite && Files.exists(file)) {
      throw new CommandFailure(
          ExitCode.CANNOT_WRITE,
          file + " is there already; choose another name or add --overwrite.");
    }
  }

  /** Writes what was asked for; returns what was written. */
  List<Path> write(SweepResult result) throws CommandFailure {
    Existing existing = overwrite ? Existing.REPLACE : Existing.REFUSE;
    List<Path> written = new ArrayList<>();
    try {
      if (out.isPresent()
          && result.measurement().curve() instanceof Outcome.Found<ImpedanceCurve> found) {
        writeCurve(out.get(), found.value(), existing);
        written.add(out.get());
      }
      if (raw.isPresent()) {
        written.addAll(writeCaptures(raw.get(), result.captures(), existing));
      }
      return written;
    } catch (BadFileException bad) {
      throw new CommandFailure(ExitCode.CANNOT_WRITE, bad.getMessage(), bad);
    }
  }

  private static void writeCurve(Path file, ImpedanceCurve curve, Existing existing)
      throws BadFileException {
    if (ending(file).equals("s1p")) {
      TouchstoneFile.writeImpedance(file, curve, existing);
    } else {
      ImpedanceTable.write(file, curve, existing);
    }
  }

  private static List<Path> writeCaptures(Path file, List<Capture> captures, Existing existing)
      throws BadFileException {
    List<Path> written = new ArrayList<>();
    for (int i = 0; i < captures.size(); i++) {
      Path each = captures.size() == 1 ? file : numbered(file, i + 1);
      CaptureTable.write(each, captures.get(i), existing);
      written.add(each);
    }
    return written;
  }

  private static Path numbered(Path file, int number) {
    String name = file.getFileName().toString();
    String stem = name.endsWith(".csv") ? name.substring(0, name.length() - 4) : name;
    return file.resolveSibling(String.format(Locale.ROOT, "%s-%03d.csv", stem, number));
  }

  private static String ending(Path file) {
    String name = file.getFileName().toString();
    return name.substring(name.lastIndexOf('.') + 1).toLowerCase(Locale.ROOT);
  }
}
