package conewise.simulator.jig;

import static org.junit.jupiter.api.Assertions.assertEquals;
import static org.junit.jupiter.api.Assertions.assertTrue;

import conewise.protocol.JigIdentity;
import conewise.protocol.Line;
import conewise.protocol.LineReader;
import conewise.protocol.vectors.Dialogue;
import conewise.protocol.vectors.DialogueFile;
import conewise.protocol.vectors.DialogueRunner;
import conewise.protocol.vectors.JigUnderTest;
import java.util.ArrayDeque;
import java.util.HashSet;
import java.util.List;
import java.util.Map;
import java.util.Optional;
import java.util.Queue;
import java.util.Set;
import java.util.TreeMap;
import java.util.stream.Stream;
import org.junit.jupiter.api.DynamicTest;
import org.junit.jupiter.api.Test;
import org.junit.jupiter.api.TestFactory;

/**
 * The dialogues of protocol/vectors, on jigs of several builds. Expected lines stand in the files.
 */
class DialoguesTest {
  private static final JigSetup FULL = JigSetup.standard();
  private static final JigSetup BARE =
      JigSetup.standard().withFitted(new JigIdentity.Fitted(false, false, false));
  private static final JigSetup SLOW = JigSetup.standard().withBaud(115_200);

  private static Map<String, JigSetup> builds() {
    Map<String, JigSetup> builds = new TreeMap<>();
    builds.put("full", FULL);
    builds.put("bare", BARE);
    builds.put("slow", SLOW);
    return builds;
  }

  private static VirtualJig jig(String build, int channels) {
    return new VirtualJig(CountingWorld.quiet().withChannels(channels), builds().get(build));
  }

  @TestFactory
  Stream<DynamicTest> everyDialogueIsHeldLineByLine() {
    return tests("", 0);
  }

  @TestFactory
  Stream<DynamicTest> everyDialogueIsHeldWithPausesBetweenBytes() {
    return tests(", byte by byte", 3);
  }

  private static Stream<DynamicTest> tests(String suffix, int pauseTicks) {
    return builds().keySet().stream()
        .flatMap(
            build ->
                Stream.of(2, 3)
                    .flatMap(
                        channels ->
                            DialogueFile.packaged().stream()
                                .flatMap(
                                    dialogue ->
                                        test(build, channels, dialogue, suffix, pauseTicks))));
  }

  private static Stream<DynamicTest> test(
      String build, int channels, Dialogue dialogue, String suffix, int pauseTicks) {
    String name = build + ", " + channels + " channels, " + dialogue.name() + suffix;
    return dialogue.resolve(jig(build, channels).identity()).stream()
        .map(
            resolved ->
                DynamicTest.dynamicTest(
                    name,
                    () ->
                        assertEquals(
                            Optional.empty(),
                            new DialogueRunner(new Bench(jig(build, channels), pauseTicks))
                                .run(resolved))));
  }

  @Test
  void everyDialogueAppliesToOneOfTheBuilds() {
    Set<String> held = new HashSet<>();
    List<Dialogue> all = DialogueFile.packaged();
    for (String build : builds().keySet()) {
      for (int channels = 2; channels <= 3; channels++) {
        JigIdentity identity = jig(build, channels).identity();
        all.stream()
            .filter(dialogue -> dialogue.resolve(identity).isPresent())
            .forEach(dialogue -> held.add(dialogue.name()));
      }
    }
    assertTrue(all.size() > 20, "only " + all.size() + " dialogues were found");
    all.forEach(dialogue -> assertTrue(held.contains(dialogue.name()), dialogue.name()));
  }

  /** A virtual jig as the dialogues see it, its first line already read. */
  private static final class Bench implements JigUnderTest {
    private static final int TICKS_PER_LOOK = 4;

    private final VirtualJig jig;
    private final int pauseTicks;
    private final LineReader reader = new LineReader(LineReader.JIG_LINE_MAX);
    private final Queue<Line> lines = new ArrayDeque<>();
    private final byte[] buffer = new byte[256];

    Bench(VirtualJig jig, int pauseTicks) {
      this.jig = jig;
      this.pauseTicks = pauseTicks;
      pause(50);
      Line first = lines.remove();
      assertTrue(((Line.Sound) first).text().startsWith("! ready "), first.toString());
    }

    @Override
    public void send(byte[] bytes) {
      for (byte octet : bytes) {
        jig.hear(octet);
        run(pauseTicks);
      }
    }

    private void run(long ticks) {
      jig.runTicks(ticks);
      for (int count = jig.takeSent(buffer); count > 0; count = jig.takeSent(buffer)) {
        for (int i = 0; i < count; i++) {
          reader.accept(buffer[i]).ifPresent(lines::add);
        }
      }
    }

    @Override
    public Optional<Line> nextLine(int milliseconds) {
      long left = ticks(milliseconds);
      while (lines.isEmpty() && left > 0) {
        run(TICKS_PER_LOOK);
        left -= TICKS_PER_LOOK;
      }
      return Optional.ofNullable(lines.poll());
    }

    private static long ticks(int milliseconds) {
      return milliseconds * 15_625L / 1000;
    }

    @Override
    public void pause(int milliseconds) {
      for (long left = ticks(milliseconds); left > 0; left -= TICKS_PER_LOOK) {
        run(TICKS_PER_LOOK);
      }
    }
  }
}
