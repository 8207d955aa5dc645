package conewise.station.files;

import conewise.analysis.impedance.ImpedanceCurve;
import conewise.analysis.impedance.ImpedancePoint;
import conewise.analysis.impedance.ImpedanceUncertainty;
import java.nio.file.Path;
import java.util.List;
import java.util.Optional;
import java.util.OptionalDouble;
import java.util.regex.Matcher;
import java.util.regex.Pattern;

/**
 * Impedance over frequency as CSV: columns {@code frequency_hz}, {@code resistance_ohm}, {@code
 * reactance_ohm} and, where known, {@code standard_uncertainty_ohm}, which holds for each of the
 * two parts. Lines that begin with {@code #} are comments; {@code # scale_standard_uncertainty: u}
 * above the header is the relative standard uncertainty of a factor common to all points.
 */
public final class ImpedanceTable {

  private static final String FREQUENCY = "frequency_hz";
  private static final String RESISTANCE = "resistance_ohm";
  private static final String REACTANCE = "reactance_ohm";
  private static final String UNCERTAINTY = "standard_uncertainty_ohm";
  private static final String SCALE = "scale_standard_uncertainty";
  private static final Pattern SCALE_NOTE = Pattern.compile(SCALE + "\\s*[:=]\\s*(.*)");
  private static final long MOST_BYTES = 64L << 20;

  private ImpedanceTable() {}

  /**
   * Reads a table of at most 200 000 points and 64 MiB.
   *
   * @throws BadFileException when it is no such table; the message names the line and the column
   */
  public static ImpedanceCurve read(Path file) throws BadFileException {
    try (TextSource source = TextSource.open(file, MOST_BYTES, Progress.UNHEARD)) {
      double[] scale = {0};
      CsvSource csv =
          new CsvSource(
              source,
              List.of(FREQUENCY, RESISTANCE, REACTANCE),
              List.of(UNCERTAINTY),
              (where, comment) -> scaleNote(where, comment, scale));
      csv.readHeader();
      CurveBuilder curve = new CurveBuilder(source);
      while (csv.nextRow()) {
        curve.add(
            csv.number(FREQUENCY),
            csv.number(RESISTANCE),
            csv.number(REACTANCE),
            uncertainty(csv, source));
      }
      return new ImpedanceCurve(curve.build().points(), scale[0]);
    }
  }

  private static void scaleNote(TextSource where, String comment, double[] scale)
      throws BadFileException {
    Matcher note = SCALE_NOTE.matcher(comment);
    if (note.matches()) {
      OptionalDouble number = NumberText.parse(note.group(1).strip());
      if (number.isEmpty() || !(number.getAsDouble() >= 0 && number.getAsDouble() <= 1)) {
        throw where.bad(
            "the note "
                + SCALE
                + " is "
                + Quoted.of(note.group(1))
                + "; allowed is a number from 0 to 1.");
      }
      scale[0] = number.getAsDouble();
    }
  }

  /**
   * Writes a table. Each number is written with as many digits as bring back the same double; an
   * uncertainty is written as one number for both parts ({@link
   * ImpedanceUncertainty#standardUncertaintyOhm}), so a covariance is not kept.
   *
   * @throws BadFileException when the file cannot be written, or is there and may not be replaced
   */
  public static void write(Path file, ImpedanceCurve curve, Existing existing)
      throws BadFileException {
    write(file, List.of(), curve, existing);
  }

  /**
   * Writes a table as {@link #write(Path, ImpedanceCurve, Existing)} does, with comments above it.
   *
   * @param comments a line each, without the number sign
   * @throws BadFileException when the file cannot be written, or is there and may not be replaced
   */
  public static void write(
      Path file, List<String> comments, ImpedanceCurve curve, Existing existing)
      throws BadFileException {
    boolean known = curve.points().stream().anyMatch(point -> point.uncertainty().isPresent());
    StringBuilder text = new StringBuilder();
    comments.forEach(comment -> text.append("# ").append(comment).append('\n'));
    if (curve.scaleUncertainty() > 0) {
      text.append("# ").append(SCALE).append(": ").append(curve.scaleUncertainty()).append('\n');
    }
    text.append(FREQUENCY).append(',').append(RESISTANCE).append(',').append(REACTANCE);
    text.append(known ? "," + UNCERTAINTY : "").append('\n');
    for (ImpedancePoint point : curve.points()) {
      text.append(point.frequencyHz()).append(',').append(point.resistanceOhm());
      text.append(',').append(point.reactanceOhm());
      if (known) {
        text.append(',');
        point.standardUncertaintyOhm().ifPresent(text::append);
      }
      text.append('\n');
    }
    NewFile.writeText(file, existing, text);
  }

  private static Optional<ImpedanceUncertainty> uncertainty(CsvSource csv, TextSource source)
      throws BadFileException {
    if (!csv.has(UNCERTAINTY) || csv.isEmpty(UNCERTAINTY)) {
      return Optional.empty();
    }
    double ohm = csv.number(UNCERTAINTY);
    if (ohm < 0) {
      throw source.bad(
          UNCERTAINTY, "found " + ohm + " ohm; it may not be negative: leave it empty if unknown.");
    }
    return Optional.of(
        csv.number(FREQUENCY) == 0
            ? ImpedanceUncertainty.ofResistance(ohm)
            : ImpedanceUncertainty.circular(ohm));
  }
}
