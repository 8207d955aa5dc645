package conewise.station.files;

import conewise.analysis.impedance.ImpedanceCurve;
import conewise.analysis.impedance.ImpedancePoint;
import java.nio.file.Path;
import java.util.Locale;
import java.util.Optional;
import java.util.OptionalDouble;
import java.util.regex.Matcher;
import java.util.regex.Pattern;
import org.apache.commons.math3.complex.Complex;

/**
 * One-port Touchstone files, version 1.1 ({@code .s1p}), of impedance (Z) or reflection (S). In
 * version 1 the numbers of a Z file are normalised: they are multiplied by the reference resistance
 * of the option line to give ohm (Touchstone File Format Specification, version 2.0, IBIS Open
 * Forum 2009; version 2 files, which are not normalised, begin with a keyword in brackets and are
 * refused).
 */
public final class TouchstoneFile {

  private static final long MOST_BYTES = 64L << 20;
  private static final Pattern PORTS = Pattern.compile(".*\\.s([0-9]{1,4})p");
  private static final int NUMBERS_IN_A_LINE = 3;

  private TouchstoneFile() {}

  /**
   * Reads a file of at most 200 000 points and 64 MiB.
   *
   * @throws BadFileException when it is no such file; the message names the line
   */
  public static ImpedanceCurve read(Path file) throws BadFileException {
    refuseMorePorts(file);
    try (TextSource source = TextSource.open(file, MOST_BYTES, Progress.UNHEARD)) {
      CurveBuilder curve = new CurveBuilder(source);
      Optional<TouchstoneOptions> options = Optional.empty();
      while (source.advance()) {
        String line = source.line().split("!", 2)[0].strip();
        if (line.startsWith("[")) {
          throw source.bad(
              "the keyword "
                  + Quoted.of(line)
                  + " belongs to version 2; export the file as version 1.1.");
        } else if (line.startsWith("#")) {
          // The first option line counts; the specification has later ones ignored.
          options =
              options.isPresent()
                  ? options
                  : Optional.of(TouchstoneOptions.read(source, line.substring(1)));
        } else if (!line.isEmpty()) {
          addPoint(source, curve, requireOptions(source, options), line.split("\\s+", -1));
        }
      }
      return curve.build();
    }
  }

  /**
   * Writes impedance: {@code # HZ Z RI R 1}. With a reference of 1 ohm the numbers are ohm for any
   * reader. Each is written with as many digits as bring back the same double. Uncertainties are
   * not kept: the format has no place for them.
   *
   * @throws BadFileException when the file cannot be written, or is there and may not be replaced
   */
  public static void writeImpedance(Path file, ImpedanceCurve curve, Existing existing)
      throws BadFileException {
    StringBuilder text = new StringBuilder("! frequency, resistance, reactance\n# HZ Z RI R 1\n");
    for (ImpedancePoint point : curve.points()) {
      appendLine(text, point.frequencyHz(), point.resistanceOhm(), point.reactanceOhm());
    }
    NewFile.writeText(file, existing, text);
  }

  /**
   * Writes the reflection: {@code # HZ S RI R n}. Uncertainties are not kept.
   *
   * @param referenceOhm the reference resistance in ohm, above 0 and at most 1e12
   * @throws BadFileException when the file cannot be written, or is there and may not be replaced,
   *     or when an impedance is minus the reference, which has no finite reflection
   */
  public static void writeReflection(
      Path file, ImpedanceCurve curve, double referenceOhm, Existing existing)
      throws BadFileException {
    if (!(referenceOhm > 0) || referenceOhm > NumberText.LARGEST) {
      throw new IllegalArgumentException(
          "the reference is " + referenceOhm + " ohm; it must be above 0 and at most 1e12");
    }
    StringBuilder text = new StringBuilder("! frequency, real and imaginary part of reflection\n");
    text.append("# HZ S RI R ").append(referenceOhm).append('\n');
    for (ImpedancePoint point : curve.points()) {
      Complex reflection =
          TouchstoneNumbers.reflection(
              new Complex(point.resistanceOhm(), point.reactanceOhm()), referenceOhm);
      if (!isUsable(reflection)) {
        throw new BadFileException(
            file
                + ": the impedance at "
                + point.frequencyHz()
                + " Hz is minus the reference of "
                + referenceOhm
                + " ohm and has no reflection; choose another reference or write impedance.");
      }
      appendLine(text, point.frequencyHz(), reflection.getReal(), reflection.getImaginary());
    }
    NewFile.writeText(file, existing, text);
  }

  private static void appendLine(StringBuilder text, double hz, double real, double imaginary) {
    text.append(hz).append(' ').append(real).append(' ').append(imaginary).append('\n');
  }

  private static void refuseMorePorts(Path file) throws BadFileException {
    Matcher name = PORTS.matcher(file.toString().toLowerCase(Locale.ROOT));
    if (name.matches() && Integer.parseInt(name.group(1)) != 1) {
      throw new BadFileException(
          file
              + ": the name says "
              + name.group(1)
              + " ports; only one-port files (.s1p) are read.");
    }
  }

  private static TouchstoneOptions requireOptions(
      TextSource source, Optional<TouchstoneOptions> options) throws BadFileException {
    if (options.isEmpty()) {
      throw source.bad(
          "numbers stand before the option line; the file needs one first, such as # HZ Z RI R 1.");
    }
    return options.get();
  }

  private static void addPoint(
      TextSource source, CurveBuilder curve, TouchstoneOptions options, String[] words)
      throws BadFileException {
    if (words.length != NUMBERS_IN_A_LINE) {
      String hint = words.length == 9 ? " (9 are those of a two-port)" : "";
      throw source.bad(
          "found "
              + words.length
              + " numbers"
              + hint
              + "; a one-port has 3: the frequency and a pair, apart by blanks.");
    }
    double hz = number(source, words[0], options.powerOfTen());
    Complex value =
        TouchstoneNumbers.decode(
            options.format(), number(source, words[1], 0), number(source, words[2], 0));
    Complex ohm = TouchstoneNumbers.impedance(options.parameter(), value, options.referenceOhm());
    if (!isUsable(ohm)) {
      throw source.bad(
          words[1]
              + " "
              + words[2]
              + " stands for no finite impedance (at most 1e12 ohm; a reflection of 1 is an open"
              + " circuit); leave the line out.");
    }
    curve.add(hz, ohm.getReal(), ohm.getImaginary(), Optional.empty());
  }

  private static double number(TextSource source, String text, int powerOfTen)
      throws BadFileException {
    OptionalDouble number = NumberText.parse(text, powerOfTen);
    if (number.isEmpty()) {
      throw source.bad("found " + Quoted.of(text) + "; allowed is " + NumberText.ALLOWED + ".");
    }
    return number.getAsDouble();
  }

  private static boolean isUsable(Complex value) {
    return Math.hypot(value.getReal(), value.getImaginary()) <= NumberText.LARGEST;
  }
}
