package conewise.simulator.jig;

import static org.junit.jupiter.api.Assertions.assertEquals;
import static org.junit.jupiter.api.Assertions.assertTrue;

import java.util.List;
import org.junit.jupiter.api.Test;

class VirtualJigTest {
  private final CountingWorld world = CountingWorld.countingTicks();
  private final Terminal terminal = new Terminal(new VirtualJig(world, JigSetup.standard()));

  @Test
  void saysReadyFirstAndDescribesItselfInTheOrderOfTheSpecification() {
    assertEquals(
        List.of("! ready cause=power protocol=1 firmware=0.1.0 board=virtual"), terminal.run(100));

    List<String> lines = terminal.ask("7 identify");

    System.out.println(lines);
    assertEquals("7 ok lines=11", lines.get(lines.size() - 1));
    assertEquals(12, lines.size());
    assertTrue(lines.get(0).startsWith("7 + jig protocol=1"), lines.toString());
  }

  @Test
  void playsAndRecords() {
    terminal.run(100);
    System.out.println(terminal.ask("1 play wave=tone millihertz=34000 level=300 dc=0"));
    System.out.println(terminal.ask("2 record channels=2 frames=70 skip=3 decimate=1"));
    System.out.println(terminal.ask("3 status"));
    System.out.println(terminal.ask("4 stop"));
  }
}
