package conewise.simulator.link;

import static org.junit.jupiter.api.Assertions.assertEquals;
import static org.junit.jupiter.api.Assertions.assertFalse;
import static org.junit.jupiter.api.Assertions.assertThrows;
import static org.junit.jupiter.api.Assertions.assertTrue;

import conewise.protocol.Accepted;
import conewise.protocol.Block;
import conewise.protocol.JigError;
import conewise.protocol.Message;
import conewise.protocol.Pushed;
import conewise.protocol.RecordShape;
import conewise.protocol.Refused;
import conewise.protocol.Reply;
import conewise.protocol.Requests;
import conewise.protocol.link.LinkLostException;
import conewise.simulator.jig.CountingWorld;
import conewise.simulator.jig.JigSetup;
import conewise.simulator.jig.VirtualJig;
import conewise.simulator.link.LinkFaults.Direction;
import conewise.simulator.link.LinkFaults.Fault;
import java.nio.charset.StandardCharsets;
import java.time.Duration;
import java.util.ArrayList;
import java.util.List;
import java.util.Set;
import org.junit.jupiter.api.Test;

class LinkFaultsTest {
  private static final Duration WAIT = Duration.ofMillis(20);

  /** The line end with which a jig starts. */
  private static final int EMPTY_LINE = 1;

  private static MemoryLink link(LinkFaults faults) {
    return new MemoryLink(
        new VirtualJig(CountingWorld.countingTicks(), JigSetup.standard().withBootMilliseconds(5)),
        faults);
  }

  /** All that a short dialogue brings: banner, a tone, a record of two blocks, a stop. */
  private static List<Message> dialogue(Host host) throws LinkLostException {
    List<Message> all = new ArrayList<>(host.listen(WAIT));
    all.addAll(host.ask(Requests.playTone(10_000_000, 100, 0).withTag(1), WAIT));
    all.addAll(host.ask(Requests.record(new RecordShape(2, 1), 40, 0).withTag(2), WAIT));
    all.addAll(host.ask(Requests.stop().withTag(3), WAIT));
    return all;
  }

  private static List<Message> soundDialogue() throws LinkLostException {
    return dialogue(new Host(link(LinkFaults.none())));
  }

  /** Bytes that the sound dialogue takes in a direction. */
  private static int length(Direction direction) throws LinkLostException {
    if (direction == Direction.TO_HOST) {
      return soundDialogue().stream().mapToInt(message -> message.toLine().length() + 1).sum()
          + EMPTY_LINE;
    }
    return Requests.playTone(10_000_000, 100, 0).withTag(1).toLine().length()
        + Requests.record(new RecordShape(2, 1), 40, 0).withTag(2).toLine().length()
        + Requests.stop().withTag(3).toLine().length()
        + 3;
  }

  private static long count(List<Message> messages, Class<? extends Message> kind) {
    return messages.stream().filter(kind::isInstance).count();
  }

  @Test
  void soundDialogueIsWhole() throws LinkLostException {
    List<Message> messages = soundDialogue();
    assertEquals(3, count(messages, Accepted.class));
    assertEquals(2, count(messages, Block.class));
    assertEquals(2, count(messages, Pushed.class), "ready and recorded");
    assertEquals(messages, soundDialogue(), "the same each time");
  }

  @Test
  void unplugAtEachByteGivesWhatCameBeforeAndThenSaysThatTheCableWasPulled()
      throws LinkLostException {
    List<Message> sound = soundDialogue();
    for (Direction direction : Direction.values()) {
      int length = length(direction);
      for (int index = 0; index < length; index++) {
        MemoryLink link = link(LinkFaults.none().at(direction, Fault.UNPLUG, index));
        String where = direction + " byte " + index;
        LinkLostException lost =
            assertThrows(LinkLostException.class, () -> dialogue(new Host(link)), where);
        assertTrue(lost.getMessage().contains("pulled"), lost.getMessage());
        assertThrows(LinkLostException.class, () -> link.write(new byte[1]), where);
        assertThrows(LinkLostException.class, () -> link.read(new byte[1], WAIT), where);
      }
    }
    assertEquals(7, sound.size());
  }

  @Test
  void freezeAtEachByteIsSilenceThatEndsInTime() throws LinkLostException {
    List<Message> sound = soundDialogue();
    for (Direction direction : Direction.values()) {
      int length = length(direction);
      for (int index = 0; index < length; index++) {
        MemoryLink link = link(LinkFaults.none().at(direction, Fault.FREEZE, index));
        List<Message> messages = dialogue(new Host(link));
        String where = direction + " byte " + index;
        assertTrue(messages.size() < sound.size(), where);
        assertEquals(sound.subList(0, messages.size()), messages, where);
        assertEquals(0, link.read(new byte[1], Duration.ofMillis(300)), where);
      }
    }
  }

  @Test
  void rebootAtEachByteShowsASecondBannerOrNothingMoreOfTheOldSession() throws LinkLostException {
    for (Direction direction : Direction.values()) {
      int length = length(direction);
      for (int index = 0; index < length; index++) {
        Host host = new Host(link(LinkFaults.none().at(direction, Fault.REBOOT, index)));
        List<Message> messages = dialogue(host);
        String where = direction + " byte " + index + ": " + messages;
        long banners =
            messages.stream()
                .filter(m -> m instanceof Pushed pushed && pushed.event().equals("ready"))
                .count();
        boolean bannerCut =
            direction == Direction.TO_HOST && index < EMPTY_LINE + banner().length();
        assertEquals(bannerCut ? 1 : 2, banners, where);
        assertTrue(
            messages.stream()
                    .filter(m -> m instanceof Reply)
                    .map(m -> ((Reply) m).tag())
                    .distinct()
                    .count()
                <= 3,
            where);
        assertTrue(
            host.ask(Requests.status().withTag(9), WAIT).stream()
                .anyMatch(m -> m instanceof Accepted accepted && accepted.tag() == 9),
            where);
      }
    }
  }

  private static String banner() throws LinkLostException {
    return soundDialogue().get(0).toLine();
  }

  @Test
  void flippedBytesAreSeenAndNeverTakenForAnotherMessage() throws LinkLostException {
    List<Message> sound = soundDialogue();
    int length = length(Direction.TO_HOST);
    int unseen = 0;
    for (int index = 0; index < length; index++) {
      Host host =
          new Host(link(LinkFaults.none().seeded(index).at(Direction.TO_HOST, Fault.FLIP, index)));
      List<Message> messages = dialogue(host);
      assertTrue(sound.containsAll(messages), "byte " + index + ": " + messages);
      // Unseen are only: the very first and the very last line end, and the case of a digit.
      unseen += host.damaged() > 0 ? 0 : 1;
      assertTrue(host.damaged() > 0 || messages.size() >= sound.size() - 1, "byte " + index);
    }
    assertTrue(unseen <= 8, "of " + length + " flipped bytes " + unseen + " went unseen");
  }

  @Test
  void droppedAndDoubledBytesAreSeenInBothDirections() throws LinkLostException {
    List<Message> sound = soundDialogue();
    for (Fault fault : List.of(Fault.DROP, Fault.DUPLICATE)) {
      for (int index = 1; index < 60; index++) {
        Host host = new Host(link(LinkFaults.none().at(Direction.TO_HOST, fault, index)));
        List<Message> messages = dialogue(host);
        assertTrue(sound.containsAll(messages), fault + " byte " + index + ": " + messages);
        MemoryLink toJig = link(LinkFaults.none().at(Direction.TO_JIG, fault, index));
        assertRefusedAtMostOnce(dialogue(new Host(toJig)), fault + " byte " + index);
      }
    }
  }

  /** Requests are obeyed as sent, or one line (or two run together) is refused as damaged. */
  private static void assertRefusedAtMostOnce(List<Message> answers, String where) {
    List<Refused> refused =
        answers.stream().filter(Refused.class::isInstance).map(Refused.class::cast).toList();
    assertTrue(refused.size() <= 1, where + ": " + answers);
    // Without its "~" a checksum is a word that is no field.
    Set<JigError> expected = Set.of(JigError.LINE_DAMAGED, JigError.LINE_MALFORMED);
    refused.forEach(reply -> assertTrue(expected.contains(reply.error()), where + reply));
    long accepted = count(answers, Accepted.class);
    assertTrue(accepted + 2L * refused.size() >= 3 && accepted <= 3, where + ": " + answers);
  }

  @Test
  void splitAndDelayedBytesChangeNothingButTheTime() throws LinkLostException {
    List<Message> sound = soundDialogue();
    List<String> expected = sound.stream().map(LinkFaultsTest::withoutTimes).toList();
    MemoryLink split = link(LinkFaults.none().often(Direction.TO_HOST, Fault.SPLIT, 1));
    assertEquals(1, split.read(new byte[100], WAIT));
    assertEquals(
        sound,
        dialogue(new Host(link(LinkFaults.none().often(Direction.TO_HOST, Fault.SPLIT, 0.5)))));
    MemoryLink slow =
        link(
            LinkFaults.none()
                .at(Direction.TO_HOST, Fault.DELAY, 100)
                .at(Direction.TO_JIG, Fault.DELAY, 10)
                .often(Direction.TO_JIG, Fault.SPLIT, 0.2));
    List<Message> late = dialogue(new Host(slow));
    assertEquals(expected, late.stream().map(LinkFaultsTest::withoutTimes).toList());
  }

  private static String withoutTimes(Message message) {
    return message instanceof Block
        ? ": block"
        : message.toText().replaceAll("tick=[0-9]+| (low|high)=[0-9,]+", "");
  }

  @Test
  void faultsByRateAreTheSameForTheSameSeedAndOthersForAnother() throws LinkLostException {
    LinkFaults often =
        LinkFaults.none()
            .often(Direction.TO_HOST, Fault.FLIP, 0.01)
            .often(Direction.TO_HOST, Fault.DROP, 0.01);
    List<Message> first = dialogue(new Host(link(often.seeded(5))));
    assertEquals(first, dialogue(new Host(link(often.seeded(5)))));
    boolean differs = false;
    for (int seed = 6; seed < 20; seed++) {
      differs |= !first.equals(dialogue(new Host(link(often.seeded(seed)))));
    }
    assertTrue(differs);
  }

  @Test
  void rateOfDropsIsThatOfThePlan() throws LinkLostException {
    MemoryLink link = link(LinkFaults.none().seeded(3).often(Direction.TO_HOST, Fault.DROP, 0.25));
    link.write(
        "record channels=2 frames=5000 skip=0 decimate=1\n".getBytes(StandardCharsets.US_ASCII));
    byte[] buffer = new byte[4096];
    int got = 0;
    for (int count = 1; count > 0; count = link.read(buffer, WAIT)) {
      got += count;
    }
    // 5000 frames are 156 blocks of 145 characters and one of 49: 22 669, and some 250 of lines.
    // 0.75 of them, five standard deviations of sqrt(22 900 x 0.25 x 0.75) = 66 either way.
    assertEquals(0.75 * 22_900, got, 5 * 66);
  }

  @Test
  void impossiblePlansAreRefused() {
    assertThrows(
        IllegalArgumentException.class,
        () -> LinkFaults.none().often(Direction.TO_HOST, Fault.DROP, 1.5));
    assertThrows(
        IllegalArgumentException.class,
        () -> LinkFaults.none().at(Direction.TO_HOST, Fault.DROP, -1));
    assertFalse(LinkFaults.none().at(Direction.TO_HOST, Fault.DROP, 1).isNone());
  }

  @Test
  void foreignDeviceBabblesInItsOwnTimeAndNeverMakesAMessage() throws LinkLostException {
    for (BabblingLink.Kind kind : BabblingLink.Kind.values()) {
      BabblingLink link = new BabblingLink(kind, 9600, 4);
      Host host = new Host(link);
      List<Message> messages =
          new ArrayList<>(host.ask(Requests.identify(), Duration.ofSeconds(3)));
      assertEquals(List.of(), messages, kind.toString());
      assertTrue(link.nanoTime() >= 3_000_000_000L && link.nanoTime() < 3_100_000_000L);
      assertEquals(kind == BabblingLink.Kind.SILENCE, host.damaged() == 0, kind.toString());
      link.close();
      assertThrows(LinkLostException.class, () -> link.read(new byte[1], WAIT));
    }
  }
}
