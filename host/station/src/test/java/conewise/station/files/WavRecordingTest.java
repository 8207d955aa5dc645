package conewise.station.files;

import static org.junit.jupiter.api.Assertions.assertArrayEquals;
import static org.junit.jupiter.api.Assertions.assertEquals;
import static org.junit.jupiter.api.Assertions.assertFalse;
import static org.junit.jupiter.api.Assertions.assertTrue;

import conewise.analysis.sampling.Capture;
import conewise.analysis.sampling.SampledChannel;
import java.nio.charset.StandardCharsets;
import java.nio.file.Files;
import java.nio.file.Path;
import java.util.Arrays;
import java.util.Random;
import java.util.stream.Stream;
import org.junit.jupiter.api.Test;
import org.junit.jupiter.api.io.TempDir;
import org.junit.jupiter.params.ParameterizedTest;
import org.junit.jupiter.params.provider.Arguments;
import org.junit.jupiter.params.provider.EnumSource;
import org.junit.jupiter.params.provider.MethodSource;

class WavRecordingTest {

  private static final WavScales UNIT = WavScales.of(1, 1);
  private static final byte[] GOOD_HEADER = WavBytes.header(1, 2, 8000, 16);
  private static final byte[] GOOD_DATA = WavBytes.data(0, 0x40, 0, 0xC0, 0, 0x20, 0xFF, 0x7F);

  @TempDir Path directory;

  @Test
  void givesVoltsAndAmperesByTheStatedScales() throws BadFileException {
    WavScales scales = new WavScales(10, 2, 5e-6, WavScales.Side.RIGHT);
    Capture capture = read(scales, WavBytes.file(GOOD_HEADER, GOOD_DATA));
    assertArrayEquals(new double[] {-5, 10 * 32767 / 32768.0}, capture.voltageVolt().values());
    assertArrayEquals(new double[] {1, 0.5}, capture.currentAmpere().values());
    assertEquals(1.25e-4, capture.currentAmpere().intervalSeconds());
    assertEquals(0, capture.voltageVolt().firstInstantSeconds());
    assertEquals(5e-6, capture.currentAmpere().firstInstantSeconds());
    assertEquals(1, capture.voltageVolt().saturatedCount(), "the top code is a rail");
    assertEquals(0, capture.currentAmpere().saturatedCount());
  }

  @Test
  void countsBothEndsOfTheScaleAsSaturated() throws BadFileException {
    byte[] ends = WavBytes.data(0, 0x80, 1, 0x80, 2, 0x80, 0xFE, 0x7F);
    Capture capture = read(UNIT, WavBytes.file(GOOD_HEADER, ends));
    assertEquals(1, capture.voltageVolt().saturatedCount(), "-32768, not -32766");
    assertEquals(1, capture.currentAmpere().saturatedCount(), "-32767, not 32766");
  }

  @Test
  void readsTwentyFourBitsWithTheirSign() throws BadFileException {
    byte[] data = WavBytes.data(1, 0, 0x80, 0xFF, 0xFF, 0xFF);
    Capture capture = read(UNIT, WavBytes.file(WavBytes.header(1, 2, 48000, 24), data));
    assertEquals(-8388607 / 8388608.0, capture.voltageVolt().values()[0]);
    assertEquals(-1 / 8388608.0, capture.currentAmpere().values()[0]);
  }

  @Test
  void readsThirtyTwoBitsAndTheTopCodeOfTheConverterBehindThem() throws BadFileException {
    byte[] data = WavBytes.data(0, 0xFF, 0xFF, 0x7F, 0, 0, 0, 0xE0);
    Capture capture = read(UNIT, WavBytes.file(WavBytes.header(1, 2, 48000, 32), data));
    assertEquals(-0.25, capture.currentAmpere().values()[0]);
    assertEquals(1, capture.voltageVolt().saturatedCount());
  }

  @Test
  void readsFloat() throws BadFileException {
    // IEEE 754: 3F800000 is 1, BE800000 is -0.25.
    byte[] data = WavBytes.data(0, 0, 0x80, 0x3F, 0, 0, 0x80, 0xBE);
    Capture capture = read(UNIT, WavBytes.file(WavBytes.header(3, 2, 48000, 32), data));
    assertEquals(1, capture.voltageVolt().values()[0]);
    assertEquals(-0.25, capture.currentAmpere().values()[0]);
    assertEquals(1, capture.voltageVolt().saturatedCount());
  }

  @Test
  void readsAnExtensibleHeaderAndItsValidBits() throws BadFileException {
    // 20 valid bits of 24: the top code is 7FFFF0.
    byte[] data = WavBytes.data(0xF0, 0xFF, 0x7F, 0xE0, 0xFF, 0x7F);
    Capture capture = read(UNIT, WavBytes.file(WavBytes.extensible(48000, 24, 20, 1), data));
    assertEquals(1, capture.voltageVolt().saturatedCount());
    assertEquals(0, capture.currentAmpere().saturatedCount());
    byte[] one = WavBytes.data(0, 0, 0x80, 0x3F, 0, 0, 0x80, 0xBE);
    Capture floats = read(UNIT, WavBytes.file(WavBytes.extensible(48000, 32, 32, 3), one));
    assertEquals(1, floats.voltageVolt().values()[0]);
  }

  @Test
  void passesOverOtherChunksAndTheirPadding() throws BadFileException {
    byte[] odd = WavBytes.chunk("LIST", new byte[] {1, 2, 3});
    Capture capture = read(UNIT, WavBytes.file(odd, GOOD_HEADER, odd, GOOD_DATA, odd));
    assertEquals(2, capture.voltageVolt().length());
  }

  static Stream<Arguments> badFiles() {
    byte[] good = WavBytes.file(GOOD_HEADER, GOOD_DATA);
    return Stream.of(
        Arguments.of("cut short", Arrays.copyOf(good, good.length - 1)),
        Arguments.of("cut short", Arrays.copyOf(good, 30)),
        Arguments.of("no samples", Arrays.copyOf(good, 36)),
        Arguments.of("does not begin", Arrays.copyOf(good, 11)),
        Arguments.of("does not begin", "RIFX....WAVE".getBytes(StandardCharsets.US_ASCII)),
        Arguments.of("1 channel;", WavBytes.file(WavBytes.header(1, 1, 8000, 16), GOOD_DATA)),
        Arguments.of("6 channels", WavBytes.file(WavBytes.header(1, 6, 8000, 16), GOOD_DATA)),
        Arguments.of("of 8 bits", WavBytes.file(WavBytes.header(1, 2, 8000, 8), GOOD_DATA)),
        Arguments.of("of 64 bits", WavBytes.file(WavBytes.header(3, 2, 8000, 64), GOOD_DATA)),
        Arguments.of("ADPCM", WavBytes.file(WavBytes.header(2, 2, 8000, 16), GOOD_DATA)),
        Arguments.of("MP3", WavBytes.file(WavBytes.header(0x55, 2, 8000, 16), GOOD_DATA)),
        Arguments.of("0 Hz", WavBytes.file(WavBytes.header(1, 2, 0, 16), GOOD_DATA)),
        Arguments.of("4294967295 Hz", WavBytes.file(WavBytes.header(1, 2, -1, 16), GOOD_DATA)),
        Arguments.of("before any header", WavBytes.file(GOOD_DATA, GOOD_HEADER)),
        Arguments.of("two headers", WavBytes.file(GOOD_HEADER, GOOD_HEADER, GOOD_DATA)),
        Arguments.of("no sample", WavBytes.file(GOOD_HEADER, WavBytes.data())),
        Arguments.of("whole number", WavBytes.file(GOOD_HEADER, WavBytes.data(1, 2, 3))),
        Arguments.of(
            "frame 0 holds no finite number",
            WavBytes.file(
                WavBytes.header(3, 2, 8000, 32), WavBytes.data(0, 0, 0xC0, 0x7F, 0, 0, 0, 0))));
  }

  @ParameterizedTest
  @MethodSource("badFiles")
  void refusesADamagedOrForeignFileInOneSentence(String sentence, byte[] bytes) {
    String message = Texts.refusal(() -> read(UNIT, bytes));
    assertTrue(message.contains(sentence), message);
    assertFalse(message.contains("\n"), message);
  }

  @ParameterizedTest
  @EnumSource(WavCoding.class)
  void givesBackWhatWasWrittenToHalfAStep(WavCoding coding) throws BadFileException {
    long seed = System.nanoTime();
    Random random = new Random(seed);
    double[] volt = random.doubles(20_000, -4.9, 4.9).toArray();
    double[] ampere = random.doubles(20_000, -0.49, 0.49).toArray();
    Capture capture =
        new Capture(
            SampledChannel.of(volt, 0, 1.0 / 44100), SampledChannel.of(ampere, 1e-5, 1.0 / 44100));
    WavScales scales = new WavScales(5, 0.5, 1e-5, WavScales.Side.RIGHT);
    Path file = directory.resolve("round.wav");
    WavRecording.write(file, capture, scales, coding, Existing.REFUSE);
    Capture back = WavRecording.read(file, scales, Progress.UNHEARD);
    // Half a step of full scale; float rounds to 24 digits, so at most 2^-25 of full scale below 1.
    double half =
        switch (coding) {
          case PCM_16 -> 0.5 / 32768;
          case PCM_24 -> 0.5 / 8388608;
          case PCM_32 -> 0.5 / 2147483648.0;
          case FLOAT_32 -> 0.5 / 16777216;
        };
    String message = "seed " + seed;
    assertArrayEquals(volt, back.voltageVolt().values(), 5 * half * (1 + 1e-9), message);
    assertArrayEquals(ampere, back.currentAmpere().values(), 0.5 * half * (1 + 1e-9), message);
    assertEquals(1.0 / 44100, back.voltageVolt().intervalSeconds());
    assertEquals(1e-5, back.currentAmpere().firstInstantSeconds());
  }

  @ParameterizedTest
  @EnumSource(WavCoding.class)
  void writesAFileReadBeforeAsTheSameBytes(WavCoding coding) throws Exception {
    double[] volt = new Random(7).doubles(3000, -0.99, 0.99).toArray();
    Capture capture =
        new Capture(SampledChannel.of(volt, 0, 1e-4), SampledChannel.of(volt.clone(), 0, 1e-4));
    Path first = directory.resolve("first.wav");
    Path second = directory.resolve("second.wav");
    WavRecording.write(first, capture, UNIT, coding, Existing.REFUSE);
    Capture back = WavRecording.read(first, UNIT, Progress.UNHEARD);
    WavRecording.write(second, back, UNIT, coding, Existing.REFUSE);
    assertArrayEquals(Files.readAllBytes(first), Files.readAllBytes(second));
  }

  @Test
  void willNotWriteWhatTheFormatCannotHold() {
    double[] one = {0.5};
    Path file = directory.resolve("no.wav");
    Capture slow =
        new Capture(SampledChannel.of(one, 0, 1 / 7812.5), SampledChannel.of(one, 0, 1 / 7812.5));
    assertTrue(
        Texts.refusal(() -> WavRecording.write(file, slow, UNIT, WavCoding.PCM_16, Existing.REFUSE))
            .contains("7812.5 Hz"));
    Capture late =
        new Capture(SampledChannel.of(one, 0, 1e-3), SampledChannel.of(one, 6.4e-5, 1e-3));
    assertTrue(
        Texts.refusal(() -> WavRecording.write(file, late, UNIT, WavCoding.PCM_16, Existing.REFUSE))
            .contains("delay"));
    Capture loud =
        new Capture(
            SampledChannel.of(one, 0, 1e-3), SampledChannel.of(new double[] {-1.5}, 0, 1e-3));
    assertTrue(
        Texts.refusal(() -> WavRecording.write(file, loud, UNIT, WavCoding.PCM_16, Existing.REFUSE))
            .contains("sample 0 of the current is -1.5"));
    assertFalse(Files.exists(file));
  }

  private Capture read(WavScales scales, byte[] bytes) throws BadFileException {
    return WavRecording.read(Texts.file(directory, "a.wav", bytes), scales, Progress.UNHEARD);
  }
}
