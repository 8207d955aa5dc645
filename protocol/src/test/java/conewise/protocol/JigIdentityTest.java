package conewise.protocol;

import static org.junit.jupiter.api.Assertions.assertEquals;
import static org.junit.jupiter.api.Assertions.assertThrows;
import static org.junit.jupiter.api.Assertions.assertTrue;

import java.util.ArrayList;
import java.util.List;
import java.util.Optional;
import org.junit.jupiter.api.Test;
import org.junit.jupiter.params.ParameterizedTest;
import org.junit.jupiter.params.provider.CsvSource;
import org.junit.jupiter.params.provider.ValueSource;

class JigIdentityTest {
  @Test
  void readsEachValueOfTheReferenceJig() {
    JigIdentity jig = ReferenceJig.identity();
    assertEquals(
        new JigIdentity.Jig("0.1.0", "atmega328p-5v", Optional.empty(), Optional.empty()),
        jig.jig());
    assertEquals(new JigIdentity.Clock(16_000_000, 1024), jig.clock());
    assertEquals(new JigIdentity.Converter(10, 1024), jig.converter());
    assertEquals(
        new JigIdentity.Channel(1, "current", "A", 511.5, 1.6276e-4, 64_000),
        jig.channels().get(1));
    assertEquals(3, jig.channels().size());
    assertEquals(new JigIdentity.Drive(511, 0.0078125, 10), jig.drive());
    assertEquals(new JigIdentity.Wave(1024, 8), jig.wave());
    assertEquals(new JigIdentity.RecordLimits(3, 1_000_000, 1_000_000, 256), jig.record());
    assertEquals(new JigIdentity.Link(500_000, 120, 160, 2_000), jig.link());
    assertEquals(new JigIdentity.Fitted(true, true, true), jig.fitted());
  }

  @Test
  void givesDetailsThatReadTheSameAgain() {
    JigIdentity jig = ReferenceJig.identity();
    List<Detail> details = jig.toDetails(9);
    assertEquals(11, details.size());
    assertTrue(
        details.stream().allMatch(detail -> detail.tag() == 9 && detail.toLine().length() <= 160));
    assertEquals(jig, JigIdentity.fromDetails(details));
  }

  @Test
  void passesOverTopicsAndFieldsItDoesNotKnow() {
    List<Detail> details = ReferenceJig.with("fitted", "buzzer=1", "buzzer=1 display=1");
    details.add(new Detail(1, "mood", Fields.of("good", "1")));
    assertEquals(ReferenceJig.identity(), JigIdentity.fromDetails(details));
  }

  @ParameterizedTest
  @ValueSource(strings = {"jig", "clock", "converter", "drive", "wave", "record", "link", "fitted"})
  void namesATopicThatIsMissingOrTwice(String topic) {
    List<Detail> without = ReferenceJig.details(ReferenceJig.DETAILS);
    without.removeIf(detail -> detail.topic().equals(topic));
    List<Detail> twice = ReferenceJig.details(ReferenceJig.DETAILS);
    twice.addAll(twice.stream().filter(detail -> detail.topic().equals(topic)).toList());
    assertEquals(
        "The jig's answer to identify has 0 lines of the topic " + topic + ", but must have 1.",
        problem(without));
    assertEquals(
        "The jig's answer to identify has 2 lines of the topic " + topic + ", but must have 1.",
        problem(twice));
  }

  @Test
  void namesEachFieldThatIsMissing() {
    for (String text : ReferenceJig.DETAILS) {
      String[] words = text.split(" ", -1);
      for (int i = 1; i < words.length; i++) {
        String key = words[i].substring(0, words[i].indexOf('='));
        String sentence = problem(ReferenceJig.with(text, " " + words[i], ""));
        assertTrue(sentence.endsWith("The field " + key + " is missing."), sentence);
      }
    }
  }

  @ParameterizedTest
  @CsvSource(
      delimiter = '|',
      value = {
        "jig      | protocol=1        | protocol=2          | speaks protocol 2, but this program"
            + " speaks protocol 1",
        "jig      | serial=none       | serial=A_1          | serial is \"A_1\"",
        "clock    | clock_hz=16000000 | clock_hz=0          | clock_hz is 0, but must lie from 1000"
            + " to 1000000000",
        "clock    | clock_hz=16000000 | clock_hz=1e6        | clock_hz must be a whole number",
        "clock    | tick_cycles=1024  | tick_cycles=-1      | tick_cycles is -1",
        "clock    | tick_cycles=1024  | tick_cycles=1       | clock_hz / tick_cycles is 1.6E7",
        "converter| bits=10           | bits=16             | bits is 16, but must lie from 6 to"
            + " 12",
        "converter| codes=1024        | codes=1025          | codes is 1025, but must lie from 2 to"
            + " 1024",
        "channel number=0 | number=0  | number=2            | number of channel line 1 is 2",
        "channel number=0 | unit=V    | unit=A              | unit of channel 0 is A, but must be"
            + " V",
        "channel number=1 | unit=A    | unit=V              | unit of channel 1 is V, but must be"
            + " A",
        "channel number=1 | 1.6276e-4 | 0                   | size of per_code of channel 1 is 0.0",
        "channel number=1 | 1.6276e-4 | NaN                 | per_code must be a number",
        "channel number=1 | 1.6276e-4 | 1e999               | per_code is 1e999",
        "channel number=1 | 64000     | 64000000000         | delay_ns of channel 1 is 6.4E10",
        "channel number=0 | 511.5     | 5000                | offset_code of channel 0 is 5000.0",
        "drive    | level_max=511     | level_max=0         | level_max is 0",
        "drive    | 0.0078125         | -0.0078125          | volt_per_level is -0.0078125",
        "drive    | source_ohm=10     | source_ohm=0        | source_ohm is 0.0",
        "wave     | points_max=1024   | points_max=15       | points_max is 15, but must lie from"
            + " 16 to 65536",
        "wave     | point_bits=8      | point_bits=16       | point_bits is 16",
        "record   | channels_max=3    | channels_max=4      | channels_max is 4",
        "record   | frames_max=1000000| frames_max=0        | frames_max is 0",
        "record   | decimate_max=256  | decimate_max=100    | decimate_max is 100, but must be a"
            + " power of two",
        "record   | decimate_max=256  | decimate_max=512    | decimate_max x (codes - 1) is 523776",
        "link     | baud=500000       | baud=0              | baud is 0",
        "link     | request_max=120   | request_max=64      | request_max is 64, but must lie from"
            + " 96 to 120",
        "link     | line_max=160      | line_max=300        | line_max is 300",
        "link     | silence_ms=2000   | silence_ms=0        | silence_ms is 0",
        "fitted   | lamps=1           | lamps=2             | lamps is 2, but must lie from 0 to 1",
        "fitted   | lamps=1           | lamps=yes           | lamps must be a whole number",
      })
  void saysWhatIsAbsurd(String line, String old, String other, String sentence) {
    String problem = problem(ReferenceJig.with(line, old, other));
    assertTrue(problem.contains(sentence), problem);
  }

  @Test
  void needsTwoOrThreeChannelsAndNoMoreToRecordThanThereAre() {
    List<Detail> one = ReferenceJig.details(ReferenceJig.DETAILS);
    one.remove(5);
    assertTrue(problem(one).contains("channels_max is 3, but must lie from 2 to 2"), problem(one));
    one.remove(4);
    assertTrue(
        problem(new ArrayList<>(one))
            .contains("1 lines of the topic channel, but must have 2 or 3"));
  }

  private static String problem(List<Detail> details) {
    return assertThrows(IdentityProblem.class, () -> JigIdentity.fromDetails(details)).getMessage();
  }
}
