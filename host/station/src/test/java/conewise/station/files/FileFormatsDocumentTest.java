package conewise.station.files;

import static org.junit.jupiter.api.Assertions.assertArrayEquals;
import static org.junit.jupiter.api.Assertions.assertEquals;
import static org.junit.jupiter.api.Assertions.assertInstanceOf;
import static org.junit.jupiter.api.Assertions.assertTrue;

import conewise.analysis.impedance.ImpedanceCurve;
import conewise.analysis.impedance.ImpedancePoint;
import conewise.analysis.impedance.ImpedanceUncertainty;
import conewise.analysis.plan.PlannedBox;
import conewise.analysis.plan.PlannedBox.PlannedSpace;
import conewise.analysis.plan.Stated;
import conewise.analysis.sampling.Capture;
import conewise.station.files.MeasurementFile.Content;
import conewise.station.files.MeasurementFile.Options;
import conewise.station.planfile.PlannedBoxFile;
import java.io.IOException;
import java.nio.file.Files;
import java.nio.file.Path;
import java.util.HexFormat;
import java.util.LinkedHashMap;
import java.util.List;
import java.util.Map;
import java.util.Optional;
import java.util.Set;
import java.util.regex.Matcher;
import java.util.regex.Pattern;
import org.junit.jupiter.api.BeforeEach;
import org.junit.jupiter.api.Test;
import org.junit.jupiter.api.io.TempDir;

/** Every example of docs/file-formats.md, straight from the document, says what the text says. */
class FileFormatsDocumentTest {

  private static final Pattern EXAMPLE =
      Pattern.compile("<!-- example: (\\S+)[^>]* -->\\n```\\w*\\n(.*?)```", Pattern.DOTALL);

  @TempDir Path directory;

  private final Map<String, String> examples = new LinkedHashMap<>();

  @BeforeEach
  void readDocument() throws IOException {
    Matcher example = EXAMPLE.matcher(Files.readString(Path.of("../../docs/file-formats.md")));
    while (example.find()) {
      examples.put(example.group(1), example.group(2));
    }
  }

  @Test
  void hasTheExamplesThatAreCheckedHereAndNoOthers() {
    assertEquals(
        Set.of(
            "impedance.csv",
            "box.s1p",
            "reflection.s1p",
            "capture.csv",
            "capture.wav",
            "heron.yaml",
            "kestrel.json",
            "dunlin.yaml"),
        examples.keySet());
  }

  @Test
  void impedanceTable() throws BadFileException {
    ImpedanceCurve curve = curve("impedance.csv");
    assertEquals(
        new ImpedancePoint(20, 18.42, 9.75, Optional.of(ImpedanceUncertainty.circular(0.08))),
        curve.points().get(0));
    assertEquals(new ImpedancePoint(52.4, 25.2, 1.1, Optional.empty()), curve.points().get(3));
  }

  @Test
  void touchstone() throws BadFileException {
    assertEquals(
        List.of(
            new ImpedancePoint(1250, 4, 2, Optional.empty()),
            new ImpedancePoint(2500, 16, -8, Optional.empty())),
        curve("box.s1p").points());
    List<ImpedancePoint> reflection = curve("reflection.s1p").points();
    assertEquals(150, reflection.get(0).resistanceOhm(), 1e-12);
    assertEquals(50.0 / 3, reflection.get(1).resistanceOhm(), 1e-12);
    assertEquals(50, reflection.get(2).reactanceOhm(), 1e-12);
  }

  @Test
  void captureTable() throws BadFileException {
    Capture capture = recording("capture.csv", Options.none());
    assertArrayEquals(new double[] {0.0121, 0.0843, 0.1502}, capture.voltageVolt().values());
    assertEquals(1.28e-4, capture.voltageVolt().intervalSeconds());
    assertEquals(6.4e-5, capture.currentAmpere().firstInstantSeconds());
    assertEquals(-1.25, capture.voltageVolt().lowRail());
    assertEquals(0.2495, capture.currentAmpere().highRail());
  }

  @Test
  void wavRecording() throws BadFileException {
    Capture capture = recording("capture.wav", Options.of(WavScales.of(1, 1)));
    assertArrayEquals(new double[] {0.5, 0.25}, capture.voltageVolt().values());
    assertArrayEquals(new double[] {-0.5, 1 - 1 / 32768.0}, capture.currentAmpere().values());
    assertEquals(1 / 8000.0, capture.voltageVolt().intervalSeconds());
  }

  @Test
  void plans() throws BadFileException {
    PlannedBox heron = PlannedBoxFile.read(file("heron.yaml"));
    assertEquals(2, heron.drivers().size());
    assertEquals(Optional.of(4.0), heron.demands().ratedImpedanceOhm());
    // 2.12 cubic feet of 28.316846592 litres (NIST SP 811, appendix B.8).
    assertEquals(0.0600317, heron.spaces().get(0).volumeM3().orElseThrow().value(), 1e-7);
    assertEquals(Optional.of(new Stated(32, 0.1)), heron.kindOf("upper").resonanceHz());
    PlannedBox dunlin = PlannedBoxFile.read(file("dunlin.yaml"));
    assertEquals(List.of("main"), dunlin.spaces().stream().map(PlannedSpace::name).toList());
    PlannedBox kestrel = PlannedBoxFile.read(file("kestrel.json"));
    assertTrue(kestrel.vents().isEmpty());
    assertEquals(0.08, kestrel.demands().dcToleranceFraction(), 1e-15);
  }

  private ImpedanceCurve curve(String name) throws BadFileException {
    Content content = MeasurementFile.read(file(name), Options.none());
    return assertInstanceOf(Content.Curve.class, content).curve();
  }

  private Capture recording(String name, Options options) throws BadFileException {
    Content content = MeasurementFile.read(file(name), options);
    return assertInstanceOf(Content.Recording.class, content).capture();
  }

  private Path file(String name) {
    String text = examples.get(name);
    if (name.endsWith(".wav")) {
      return Texts.file(directory, name, HexFormat.of().parseHex(text.replaceAll("\\s", "")));
    }
    return Texts.file(directory, name, text);
  }
}
