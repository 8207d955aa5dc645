package conewise.protocol;

import static org.junit.jupiter.api.Assertions.assertArrayEquals;
import static org.junit.jupiter.api.Assertions.assertEquals;
import static org.junit.jupiter.api.Assertions.assertFalse;
import static org.junit.jupiter.api.Assertions.assertThrows;
import static org.junit.jupiter.api.Assertions.assertTrue;

import java.nio.charset.StandardCharsets;
import java.util.List;
import org.junit.jupiter.api.Test;
import org.junit.jupiter.params.ParameterizedTest;
import org.junit.jupiter.params.provider.CsvSource;

/** Typed views of replies, and requests that the host builds. */
class ViewsTest {
  private final CommandParser commands = new CommandParser(ReferenceJig.identity());

  private static Message read(String text) {
    Line line = Line.of(Checksum.seal(text), LineReader.JIG_LINE_MAX).orElseThrow();
    return ((ReplyParser.Read) ReplyParser.parse(line)).message();
  }

  @Test
  void readsTheAnswersOfTheSpecification() {
    assertEquals(
        new PlayStart(9_345_849, 81_250),
        PlayStart.from((Accepted) read("0 ok step=9345849 tick=81250 checked=no")));
    RecordStart start = new RecordStart(1, 96_875, 2, 32, 2);
    assertEquals(
        start,
        RecordStart.from(
            (Accepted)
                read("0 ok record=1 first_tick=96875 interval_ticks=2 block_frames=32 digits=2")));
    RecordEnd end = new RecordEnd(1, 32, 1, true, List.of(212, 305), List.of(811, 718));
    assertEquals(
        end,
        RecordEnd.from(
            (Pushed)
                read(
                    "! recorded record=1 frames=32 blocks=1 complete=yes low=212,305"
                        + " high=811,718")));
    assertEquals(
        new JigReady("power", 1, "0.1.0", "atmega328p-5v"),
        JigReady.from(
            (Pushed) read("! ready cause=power protocol=1 firmware=0.1.0 board=atmega328p-5v")));
    assertFalse(((Accepted) read("0 ok checked=no")).checked());
    assertTrue(((Accepted) read("0 ok")).checked());
  }

  @Test
  void writesWhatItReads() {
    PlayStart play = new PlayStart(Integer.MAX_VALUE, 0xFFFF_FFFFL);
    assertEquals(play, PlayStart.from(play.toReply(3)));
    RecordStart start = new RecordStart(255, 0, 768, 14, 3);
    assertEquals(start, RecordStart.from(start.toReply(3)));
    RecordEnd none = new RecordEnd(2, 0, 0, false, List.of(), List.of());
    assertEquals(none, RecordEnd.from(none.toPushed()));
    assertEquals("! recorded record=2 frames=0 blocks=0 complete=no", none.toPushed().toText());
    JigStatus status = new JigStatus(5, "tone", 7, true, 1, 2, 3, 4, 5);
    assertEquals(status, JigStatus.from(status.toReply(9)));
    JigReady ready = new JigReady("brown-out", 1, "2.0", "b");
    assertEquals(ready, JigReady.from(ready.toPushed()));
  }

  @Test
  void countersStopAtTheirLimit() {
    JigStatus status = new JigStatus(0, "none", 0, false, 1L << 40, 0, 0, 0, 0);
    // Specification, section 5, status.
    assertEquals(99_999_999, JigStatus.from(status.toReply(1)).clippedFrames());
  }

  @ParameterizedTest
  @CsvSource(
      delimiter = '|',
      value = {
        "record=0 frames=1 blocks=1 complete=yes low=1,2 high=3,4",
        "record=1 frames=1 blocks=1 complete=maybe low=1,2 high=3,4",
        "record=1 frames=1 blocks=1 complete=yes low=1,2 high=3",
        "record=1 frames=1 blocks=1 complete=yes",
        "record=1 frames=0 blocks=0 complete=no low=1,2 high=3,4",
        "record=1 frames=1 blocks=1 complete=yes low=1,4096 high=3,4",
        "frames=1 blocks=1 complete=yes low=1,2 high=3,4",
      })
  void anEndOfARecordThatDoesNotFitTogetherIsRefused(String fields) {
    Pushed pushed = (Pushed) read("! recorded " + fields);
    assertThrows(IllegalArgumentException.class, () -> RecordEnd.from(pushed));
  }

  @Test
  void requestsOfTheHostAreReadAsMeant() {
    byte[] points = {0, 127, -127, -128};
    Command.Load load = (Command.Load) commands.parse(Requests.load(1020, points));
    assertEquals(1020, load.at());
    assertArrayEquals(new byte[] {0, 127, -127, -127}, load.points());
    assertEquals(new Command.PlayTone(5, 300, -2), commands.parse(Requests.playTone(5, 300, -2)));
    Command.PlayTable table =
        (Command.PlayTable) commands.parse(Requests.playTable(512, 5, 300, -2, 0xAF));
    assertEquals(0xAF, table.crc().orElseThrow());
    assertEquals(302, table.peak());
    assertEquals(new Command.PlayDc(-511), commands.parse(Requests.playDc(-511)));
    assertEquals(new Command.Limit(9), commands.parse(Requests.limit(9)));
    RecordShape shape = new RecordShape(3, 8);
    assertEquals(
        new Command.RecordFrames(shape, 7, 2), commands.parse(Requests.record(shape, 7, 2)));
    assertEquals(new Command.Stop(), commands.parse(Requests.stop()));
    assertEquals(new Command.Identify(), commands.parse(Requests.identify()));
    assertEquals(new Command.Status(), commands.parse(Requests.status()));
    assertEquals(
        new Command.Lamp("fail", "blink"),
        commands.parse(Requests.lamp(Requests.Lamp.FAIL, Requests.LampState.BLINK)));
    assertEquals(new Command.Buzz(2000), commands.parse(Requests.buzz(2000)));
    assertEquals(
        "A-1", ((Command.Store) commands.parse(Requests.storeSerial("A-1"))).id().orElseThrow());
    assertTrue(((Command.Store) commands.parse(Requests.storeCalibration("none"))).id().isEmpty());
  }

  @Test
  void theLongestLoadFitsEveryJig() {
    Request longest = Requests.load(65_535, new byte[48]).withTag(9999);
    assertTrue(longest.toLine().length() <= 96, longest.toLine());
    assertThrows(IllegalArgumentException.class, () -> Requests.load(0, new byte[49]));
    assertThrows(IllegalArgumentException.class, () -> Requests.load(0, new byte[0]));
  }

  @Test
  void aRequestTooLongForTheWireIsNotSent() {
    Request request = new Request(1, "load", Fields.of("data", "A".repeat(96), "at", "001"));
    String message = assertThrows(IllegalStateException.class, request::toLine).getMessage();
    assertEquals("a request may be 120 characters long, but this load has 121", message);
  }

  @Test
  void aRefusalSaysCauseAndNextStep() {
    assertEquals(
        "The jig refused: level plus the size of dc is above the limit in force. (given=101"
            + " high=100) Lower level or dc or raise limit.",
        ((Refused) read("2 no 30 above-limit given=101 high=100")).toSentence());
  }

  @ParameterizedTest
  // RFC 4648, section 10, test vectors of BASE64.
  @CsvSource({
    "f,Zg==",
    "fo,Zm8=",
    "foo,Zm9v",
    "foob,Zm9vYg==",
    "fooba,Zm9vYmE=",
    "foobar,Zm9vYmFy"
  })
  void codesWavePointsAsBase64(String text, String base64) {
    byte[] bytes = text.getBytes(StandardCharsets.US_ASCII);
    assertEquals(base64, WavePoints.encode(bytes));
    assertArrayEquals(bytes, WavePoints.decode("data", base64));
  }

  @Test
  void theChecksumOfPointsCountsTheFirstOnly() {
    // 906E: check value of CRC-16/X-25 in the RevEng catalogue.
    assertEquals(
        0x906E, WavePoints.checksum("123456789xyz".getBytes(StandardCharsets.US_ASCII), 9));
  }

  @Test
  void valuesOutsideTheirFieldsAreRefusedWithTheLimit() {
    SampleCodec codec = new SampleCodec(2, 2);
    assertEquals(
        "a value of 2 digits runs from 0 to 4095, not 4096",
        assertThrows(IllegalArgumentException.class, () -> codec.encode(0, 4096)).getMessage());
    assertThrows(IllegalArgumentException.class, () -> codec.encode(1));
    assertThrows(IllegalArgumentException.class, () -> codec.encode(new int[66]));
    assertThrows(IllegalArgumentException.class, () -> new SampleCodec(4, 2));
    assertThrows(IllegalArgumentException.class, () -> new RecordShape(2, 3));
    assertThrows(IllegalArgumentException.class, () -> new Block(0, 0, "A"));
    assertThrows(IllegalArgumentException.class, () -> new Block(1, 65_536, "A"));
    assertThrows(IllegalArgumentException.class, () -> new Accepted(10_000, Fields.NONE));
    assertThrows(IllegalArgumentException.class, () -> new Pushed("two words", Fields.NONE));
  }
}
