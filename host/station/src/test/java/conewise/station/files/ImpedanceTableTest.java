package conewise.station.files;

import static org.junit.jupiter.api.Assertions.assertEquals;
import static org.junit.jupiter.api.Assertions.assertThrows;
import static org.junit.jupiter.api.Assertions.assertTrue;

import conewise.analysis.impedance.ImpedanceCurve;
import conewise.analysis.impedance.ImpedancePoint;
import conewise.analysis.impedance.ImpedanceUncertainty;
import java.nio.file.Files;
import java.nio.file.Path;
import java.util.ArrayList;
import java.util.List;
import java.util.Optional;
import java.util.Random;
import org.junit.jupiter.api.Test;
import org.junit.jupiter.api.io.TempDir;
import org.junit.jupiter.params.ParameterizedTest;
import org.junit.jupiter.params.provider.CsvSource;

class ImpedanceTableTest {

  private static final String HEADER = "frequency_hz,resistance_ohm,reactance_ohm\n";

  @TempDir Path directory;

  @Test
  void readsColumnsInAnyOrderWithCommentsMarkAndWindowsLineEnds() throws BadFileException {
    String text =
        """
        \uFEFF# a comment; with a semicolon, and commas\r
        reactance_ohm , frequency_hz,"standard_uncertainty_ohm",RESISTANCE_OHM\r
        \r
        -1.5e0,20,0.25,+7.\r
        # in between\r
        .5,31.5,,8\r
        \r
          \r
        """;
    ImpedanceCurve curve = ImpedanceTable.read(Texts.file(directory, "a.csv", text));
    assertEquals(
        List.of(
            new ImpedancePoint(20, 7, -1.5, Optional.of(ImpedanceUncertainty.circular(0.25))),
            new ImpedancePoint(31.5, 8, 0.5, Optional.empty())),
        curve.points());
  }

  @Test
  void keepsTheUncertaintyOfTheScaleAndOfADirectCurrentThroughAFileAndRefusesOneThatIsNoPart()
      throws BadFileException {
    ImpedanceCurve curve =
        new ImpedanceCurve(
            List.of(
                new ImpedancePoint(0, 3.6, 0, Optional.of(ImpedanceUncertainty.ofResistance(0.02))),
                new ImpedancePoint(20, 7, -1.5, Optional.empty())),
            0.041);
    Path file = directory.resolve("scale.csv");
    ImpedanceTable.write(file, curve, Existing.REFUSE);
    assertEquals(curve, ImpedanceTable.read(file));
    Path wrong = Texts.file(directory, "w.csv", "# scale_standard_uncertainty: 4.1 %\n");
    String message =
        assertThrows(BadFileException.class, () -> ImpedanceTable.read(wrong)).getMessage();
    assertTrue(message.contains("line 1") && message.contains("from 0 to 1"), message);
  }

  @Test
  void keepsADirectCurrentPointAtZeroHertz() throws BadFileException {
    ImpedanceCurve curve = ImpedanceTable.read(table("0,3.6,0\n20,4,1\n"));
    assertEquals(0, curve.lowestHz());
  }

  // Each row: what stands below the header, then pieces that the sentence must hold.
  @ParameterizedTest
  @CsvSource(
      delimiter = '|',
      value = {
        "20,1,2;30,1,x | line 3, column reactance_ohm | \"x\"",
        "20,1,2;30,1,NaN | line 3, column reactance_ohm | \"NaN\"",
        "20,Infinity,2 | line 2, column resistance_ohm | \"Infinity\"",
        "20,0x10,2 | line 2, column resistance_ohm | \"0x10\"",
        "20,1d,2 | line 2, column resistance_ohm | \"1d\"",
        "20,1e999,2 | line 2, column resistance_ohm | up to 1e12",
        "20,2e12,2 | line 2, column resistance_ohm | up to 1e12",
        "20,,2 | line 2, column resistance_ohm | \"\"",
        "-20,1,2 | line 2 | may not be negative",
        "30,1,2;20,1,2 | line 3 | sort the rows",
        "30,1,2;30,1,2 | line 3 | comes twice",
        "20,1 | line 2 | the row has 2 values and the header 3",
        "20,1,2,3 | line 2 | the row has 4 values and the header 3",
        "20,5,1,5,2,5 | line 2 | decimals need a point",
        "0,1,0.5 | line 2 | direct current",
      })
  void refusesARowByItsLine(String rows, String where, String what) {
    String message =
        Texts.refusal(() -> ImpedanceTable.read(table(rows.replace(';', '\n') + "\n")));
    assertTrue(message.contains(where) && message.contains(what), message);
  }

  @ParameterizedTest
  @CsvSource(
      delimiter = '|',
      value = {
        "frequency_hz,resistance_ohm | line 1 | lacks the column reactance_ohm",
        "frequency_hz,resistance_ohms,reactance_ohm | line 1 | resistance_ohm is near",
        "frequency_hz,frequency_hz,reactance_ohm | line 1 | twice",
        "frequency_hz;resistance_ohm;reactance_ohm | line 1 | semicolons",
        "20,1,2 | line 1 | where the header should",
      })
  void refusesAHeaderByWhatIsWrongWithIt(String header, String where, String what) {
    Path file = Texts.file(directory, "h.csv", header + "\n20,1,2\n");
    String message = Texts.refusal(() -> ImpedanceTable.read(file));
    assertTrue(message.contains(where) && message.contains(what), message);
  }

  @Test
  void refusesANegativeUncertaintyAndAnEmptyTable() {
    String negative =
        "frequency_hz,resistance_ohm,reactance_ohm,standard_uncertainty_ohm\n20,1,2,-0.1\n";
    Path file = Texts.file(directory, "n.csv", negative);
    assertTrue(Texts.refusal(() -> ImpedanceTable.read(file)).contains("line 2"), "its line");
    assertTrue(
        Texts.refusal(() -> ImpedanceTable.read(table(""))).contains("at least one"), "no rows");
  }

  @Test
  void refusesTextThatIsNotUtf8AndLinesWithoutEnd() {
    Path latin = Texts.file(directory, "l.csv", new byte[] {'#', (byte) 0xE9, '\n', 'x', '\n'});
    assertTrue(Texts.refusal(() -> ImpedanceTable.read(latin)).contains("line 1"), "its line");
    Path longLine = Texts.file(directory, "long.csv", "#" + "x".repeat(5000));
    assertTrue(Texts.refusal(() -> ImpedanceTable.read(longLine)).contains("4096"), "the limit");
  }

  @Test
  void refusesMorePointsThanItsLimit() {
    StringBuilder rows = new StringBuilder();
    for (int i = 0; i <= CurveBuilder.MOST_POINTS; i++) {
      rows.append(i + 1).append(",1,2\n");
    }
    String message = Texts.refusal(() -> ImpedanceTable.read(table(rows.toString())));
    assertTrue(message.contains("line 200002") && message.contains("200000"), message);
  }

  @Test
  void givesBackTheVeryNumbersThatWereWritten() throws BadFileException {
    long seed = System.nanoTime();
    Random random = new Random(seed);
    List<ImpedancePoint> points = new ArrayList<>();
    double hz = 0;
    for (int i = 0; i < 500; i++) {
      hz += random.nextDouble() + 1e-9;
      Optional<ImpedanceUncertainty> known =
          i % 3 == 0
              ? Optional.empty()
              : Optional.of(ImpedanceUncertainty.circular(random.nextDouble()));
      points.add(
          new ImpedancePoint(
              hz,
              random.nextGaussian() * Math.pow(10, random.nextInt(9) - 4),
              -random.nextDouble(),
              known));
    }
    Path file = directory.resolve("round.csv");
    ImpedanceTable.write(file, new ImpedanceCurve(points), Existing.REFUSE);
    assertEquals(points, ImpedanceTable.read(file).points(), "seed " + seed);
  }

  @Test
  void neverReplacesAFileUnasked() throws Exception {
    ImpedanceCurve curve =
        new ImpedanceCurve(List.of(new ImpedancePoint(20, 1, 2, Optional.empty())));
    Path file = Texts.file(directory, "kept.csv", "precious");
    String message = Texts.refusal(() -> ImpedanceTable.write(file, curve, Existing.REFUSE));
    assertTrue(message.contains("exists already"), message);
    assertEquals("precious", Files.readString(file));
    ImpedanceTable.write(file, curve, Existing.REPLACE);
    assertEquals(curve, ImpedanceTable.read(file));
    try (var files = Files.list(directory)) {
      assertEquals(List.of(file), files.toList(), "no temporary file is left");
    }
  }

  @Test
  void saysWhenADirectoryIsMissing() {
    ImpedanceCurve curve =
        new ImpedanceCurve(List.of(new ImpedancePoint(20, 1, 2, Optional.empty())));
    Path file = directory.resolve("nowhere").resolve("a.csv");
    String message = Texts.refusal(() -> ImpedanceTable.write(file, curve, Existing.REFUSE));
    assertTrue(message.contains("directory does not exist"), message);
  }

  private Path table(String rows) {
    return Texts.file(directory, "t.csv", HEADER + rows);
  }
}
