package conewise.station.files;

import java.util.HashSet;
import java.util.Locale;
import java.util.Map;
import java.util.OptionalDouble;
import java.util.Set;
import java.util.StringTokenizer;

/**
 * The option line of a Touchstone file, version 1: {@code # unit parameter format R n}, in any
 * order and case; what is left out is GHz, S, MA, 50 (Touchstone File Format Specification, version
 * 2.0, IBIS Open Forum 2009, "Option Line").
 *
 * @param powerOfTen the unit of frequency as a power of ten of 1 Hz
 * @param parameter what the numbers are
 * @param format how a complex number is written
 * @param referenceOhm the reference resistance in ohm, positive
 */
record TouchstoneOptions(int powerOfTen, Parameter parameter, Format format, double referenceOhm) {

  /** What the numbers are. */
  enum Parameter {
    /** The reflection, (Z - R)/(Z + R). */
    S,
    /** The impedance over R: version 1 normalises it. */
    Z
  }

  /** How a complex number is written; angles are in degrees. */
  enum Format {
    /** 20 log10 of the modulus, angle. */
    DB,
    /** Modulus, angle. */
    MA,
    /** Real part, imaginary part. */
    RI
  }

  private static final Map<String, Integer> UNITS = Map.of("HZ", 0, "KHZ", 3, "MHZ", 6, "GHZ", 9);
  private static final Map<String, String> OTHER_PARAMETERS =
      Map.of("Y", "admittance", "H", "hybrid h", "G", "hybrid g");
  private static final double STANDARD_REFERENCE_OHM = 50;

  /** True when the text after a {@code #} is an option line rather than a comment of a CSV file. */
  static boolean looksLike(String afterMark) {
    String[] words = afterMark.strip().toUpperCase(Locale.ROOT).split("\\s+", -1);
    for (String word : words) {
      boolean known =
          UNITS.containsKey(word)
              || word.matches("[SZYHG]|DB|MA|RI|R")
              || NumberText.parse(word).isPresent();
      if (!known && !word.isEmpty()) {
        return false;
      }
    }
    return true;
  }

  /** Reads the words after the {@code #} of the line that the source has reached. */
  static TouchstoneOptions read(TextSource source, String afterMark) throws BadFileException {
    int powerOfTen = 9;
    Parameter parameter = Parameter.S;
    Format format = Format.MA;
    double reference = STANDARD_REFERENCE_OHM;
    Set<String> given = new HashSet<>();
    StringTokenizer words = new StringTokenizer(afterMark.toUpperCase(Locale.ROOT));
    while (words.hasMoreTokens()) {
      String word = words.nextToken();
      refuseOthers(source, word);
      if (UNITS.containsKey(word)) {
        once(source, given, "unit of frequency");
        powerOfTen = UNITS.get(word);
      } else if (word.equals("S") || word.equals("Z")) {
        once(source, given, "kind of parameter");
        parameter = Parameter.valueOf(word);
      } else if (word.equals("DB") || word.equals("MA") || word.equals("RI")) {
        once(source, given, "format");
        format = Format.valueOf(word);
      } else {
        once(source, given, "reference");
        reference = reference(source, words);
      }
    }
    return new TouchstoneOptions(powerOfTen, parameter, format, reference);
  }

  private static void refuseOthers(TextSource source, String word) throws BadFileException {
    if (OTHER_PARAMETERS.containsKey(word)) {
      throw source.bad(
          "the option line says "
              + word
              + " ("
              + OTHER_PARAMETERS.get(word)
              + " parameters); only S and Z are read: export one of these.");
    }
    if (!UNITS.containsKey(word) && !word.matches("S|Z|DB|MA|RI|R")) {
      throw source.bad(
          "the option line has "
              + Quoted.of(word)
              + "; allowed are Hz kHz MHz GHz, S Z, DB MA RI, and R with a number apart from it.");
    }
  }

  private static void once(TextSource source, Set<String> given, String what)
      throws BadFileException {
    if (!given.add(what)) {
      throw source.bad("the option line gives the " + what + " twice; keep one of the two.");
    }
  }

  private static double reference(TextSource source, StringTokenizer words)
      throws BadFileException {
    String text = words.hasMoreTokens() ? words.nextToken() : "";
    OptionalDouble ohm = NumberText.parse(text);
    if (ohm.isEmpty() || ohm.getAsDouble() <= 0) {
      throw source.bad(
          "the option line has R "
              + Quoted.of(text)
              + "; R needs the reference resistance in ohm, above 0, such as R 50.");
    }
    return ohm.getAsDouble();
  }
}
