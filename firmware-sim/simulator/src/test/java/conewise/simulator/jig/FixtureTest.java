package conewise.simulator.jig;

import static org.junit.jupiter.api.Assertions.assertEquals;
import static org.junit.jupiter.api.Assertions.assertFalse;
import static org.junit.jupiter.api.Assertions.assertTrue;

import java.util.List;
import org.junit.jupiter.api.Test;

/** Foot switch, lamps and buzzer. 20 ms are 312.5 ticks. */
class FixtureTest {
  private final VirtualJig jig = new VirtualJig(CountingWorld.quiet(), JigSetup.standard());
  private final Terminal terminal = new Terminal(jig);

  @Test
  void bouncesOfTheFootSwitchAreOnePress() {
    terminal.run(50);
    for (int bounce = 0; bounce < 20; bounce++) {
      jig.footContact(bounce % 2 == 0);
      assertEquals(List.of(), terminal.run(300));
    }
    jig.footContact(true);
    assertEquals(List.of(), terminal.run(312));
    assertEquals(List.of("! foot state=down"), terminal.run(50));
    assertTrue(terminal.ask("1 status").get(0).contains(" foot=down "));
    jig.footContact(false);
    assertEquals(List.of("! foot state=up"), terminal.run(400));
  }

  @Test
  void lampsShowWhatWasAsked() {
    terminal.run(50);
    assertEquals("off", jig.lamp("pass"));
    terminal.ask("1 lamp name=pass state=on");
    terminal.ask("2 lamp name=fail state=blink");
    assertEquals("on", jig.lamp("pass"));
    assertEquals("blink", jig.lamp("fail"));
    assertEquals("off", jig.lamp("busy"));
  }

  @Test
  void buzzerSoundsForItsTime() {
    terminal.run(50);
    terminal.send("1 buzz milliseconds=40");
    terminal.run(40);
    assertTrue(jig.buzzes());
    terminal.run(500);
    assertTrue(jig.buzzes());
    terminal.run(200);
    assertFalse(jig.buzzes());
  }
}
