package conewise.station.files;

import static org.junit.jupiter.api.Assertions.assertEquals;
import static org.junit.jupiter.api.Assertions.assertInstanceOf;
import static org.junit.jupiter.api.Assertions.assertTrue;

import conewise.station.files.MeasurementFile.Content;
import conewise.station.files.MeasurementFile.Options;
import java.nio.file.Path;
import java.util.ArrayList;
import java.util.List;
import java.util.Optional;
import org.junit.jupiter.api.Test;
import org.junit.jupiter.api.io.TempDir;
import org.junit.jupiter.params.ParameterizedTest;
import org.junit.jupiter.params.provider.CsvSource;

class MeasurementFileTest {

  private static final byte[] WAV =
      WavBytes.file(WavBytes.header(1, 2, 8000, 16), WavBytes.data(0, 1, 0, 2));

  @TempDir Path directory;

  @ParameterizedTest
  @CsvSource(
      delimiter = '|',
      value = {
        "a.csv | frequency_hz,resistance_ohm,reactance_ohm~20,1,2",
        "a.txt | # any: words~~reactance_ohm,frequency_hz,resistance_ohm~20,30,2",
        "a     | # R 5 is hot~frequency_hz,resistance_ohm,reactance_ohm~20,1,2",
        "a.s1p | # Hz Z RI R 1~20 1 2",
        "a.S1P | #~20 .1 2",
        "a.txt | # khz s ri~20 .1 2",
        "a.dat | ! words~# Hz Z RI R 1~20 1 2",
      })
  void recognisesACurveByContentAndName(String name, String text) throws BadFileException {
    Path file = Texts.file(directory, name, text.replace('~', '\n'));
    Content content = MeasurementFile.read(file, Options.none());
    assertEquals(1, assertInstanceOf(Content.Curve.class, content).curve().points().size());
  }

  @Test
  void recognisesRecordingsByContent() throws BadFileException {
    Path table = Texts.file(directory, "a.txt", "# sample_rate_hz: 10\ncurrent_a,voltage_v\n1,2\n");
    assertInstanceOf(Content.Recording.class, MeasurementFile.read(table, Options.none()));
    Path wav = Texts.file(directory, "a.bin", WAV);
    Options scales = Options.of(WavScales.of(1, 1));
    assertInstanceOf(Content.Recording.class, MeasurementFile.read(wav, scales));
  }

  @Test
  void asksForTheScalesOfAWavFile() {
    Path wav = Texts.file(directory, "a.wav", WAV);
    String message = Texts.refusal(() -> MeasurementFile.read(wav, Options.none()));
    assertTrue(message.contains("volts and amperes"), message);
  }

  @ParameterizedTest
  @CsvSource(
      delimiter = '|',
      value = {
        "photo.csv | \u00FF\u00D8\u00FF\u00E0 | JPEG",
        "photo.s1p | \u0089PNG | PNG",
        "sheet.csv | PK\u0003\u0004x | office document",
        "song.dat  | fLaC | FLAC",
        "page.csv  | <html> | web page",
        "wide.csv  | \u00FF\u00FEf | UTF-16",
        "long.rec  | RF64 | RF64",
        "song.wav  | ID3 | MP3",
        "talk.wav  | words | does not begin as one",
        "box.yaml  | plan: 1~name: x | is a plan",
        "box.json  | {\"plan\": 1} | is a plan",
        "list.csv  | 20,1,2 | put a header line",
        "notes.txt | Dear all | which no known kind does",
        "blank.csv | ~~ | holds no measurement",
        "said.csv  | # only words here | holds no measurement",
        "semi.csv  | frequency_hz;resistance_ohm;reactance_ohm~20;1;2 | semicolons",
        "pair.s2p  | # Hz S RI~20 1 0 | 2 ports",
      })
  void saysWhatAForeignFileIs(String name, String text, String sentence) {
    byte[] bytes = text.replace('~', '\n').getBytes(java.nio.charset.StandardCharsets.ISO_8859_1);
    Path file = Texts.file(directory, name, bytes);
    String message = Texts.refusal(() -> MeasurementFile.read(file, Options.none()));
    assertTrue(message.contains(sentence) && message.contains(name), message);
  }

  @Test
  void saysWhatStandsInTheWay() {
    assertTrue(refusal(directory).contains("is a directory"));
    assertTrue(refusal(directory.resolve("none.csv")).contains("does not exist"));
    assertTrue(refusal(Texts.file(directory, "zero.csv", "")).contains("is empty (0 bytes)"));
    assertTrue(refusal(Path.of("/dev/null")).contains("device or a pipe"));
  }

  @Test
  void tellsHowFarALongReadingHasCome() throws BadFileException {
    Path file = directory.resolve("long.csv");
    String row = "0.5,0.25\n";
    Texts.file(
        directory, "long.csv", "# sample_rate_hz: 10\nvoltage_v,current_a\n" + row.repeat(300_000));
    List<Double> heard = new ArrayList<>();
    MeasurementFile.read(file, new Options(Optional.empty(), heard::add));
    assertTrue(heard.size() >= 2, heard.toString());
    assertEquals(heard.stream().sorted().toList(), heard, "never falling");
    assertTrue(heard.get(0) > 0 && heard.get(heard.size() - 1) <= 1, heard.toString());
  }

  private static String refusal(Path file) {
    return Texts.refusal(() -> MeasurementFile.read(file, Options.none()));
  }
}
