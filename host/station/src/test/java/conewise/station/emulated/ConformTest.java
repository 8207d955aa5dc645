package conewise.station.emulated;

import static org.junit.jupiter.api.Assertions.assertEquals;
import static org.junit.jupiter.api.Assertions.assertTrue;

import com.fasterxml.jackson.databind.JsonNode;
import com.fasterxml.jackson.databind.ObjectMapper;
import conewise.simulator.box.Box;
import conewise.simulator.box.Wiring;
import conewise.simulator.world.DemoWorld;
import conewise.simulator.world.World;
import conewise.station.command.CommandRun;
import java.nio.file.Path;
import java.util.ArrayList;
import java.util.List;
import org.junit.jupiter.api.BeforeEach;
import org.junit.jupiter.api.Test;
import org.junit.jupiter.api.io.TempDir;

/**
 * The contract of the wire held with the real firmware on the emulated board, in real time: the
 * dialogues wait by the clock on the wall, half a minute in all, so other tests run meanwhile.
 */
class ConformTest {
  private static final double OPEN_OHM = 1e7;

  @TempDir private Path folder;

  @BeforeEach
  void requireBoard() throws Exception {
    EmulatedBoard.require();
  }

  @Test
  void theFirmwareHoldsEveryDialogueThatAppliesToItsBoard() throws Exception {
    World open = DemoWorld.WREN.load().with(Box.load(new Wiring.Resistance(OPEN_OHM)));
    CommandRun run;
    try (EmulatedBoard board = EmulatedBoard.start(folder, open, EmulatedBoard.Pace.REAL)) {
      run = CommandRun.of("conform", "--json", "--with-store", "--port", board.port());
    }
    JsonNode answer = new ObjectMapper().readTree(run.out());
    List<String> broken = of(answer, "broken");
    List<String> held = of(answer, "held");
    List<String> passedOver = of(answer, "passed-over");
    System.out.println(
        "conform on the emulated board: "
            + held.size()
            + " held, "
            + broken.size()
            + " broken, passed over: "
            + passedOver);
    assertEquals(List.of(), broken, run.out() + run.err());
    assertEquals(0, run.exitCode(), run.out() + run.err());
    // A board of three channels with all parts and a fast link: what is for other boards is not
    // for it, and there are six of those.
    assertTrue(held.size() >= 59, run.out());
    assertTrue(passedOver.stream().noneMatch(each -> each.startsWith("store.txt")), run.out());
  }

  private static List<String> of(JsonNode answer, String outcome) {
    List<String> dialogues = new ArrayList<>();
    for (JsonNode each : answer.get("dialogues")) {
      if (each.get("outcome").asText().equals(outcome)) {
        dialogues.add(each.get("dialogue").asText());
      }
    }
    return dialogues;
  }
}
