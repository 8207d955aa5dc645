package conewise.station.calibrating;

import static org.junit.jupiter.api.Assertions.assertEquals;
import static org.junit.jupiter.api.Assertions.assertTrue;

import conewise.jig.client.JigClient;
import conewise.jig.sweep.SweepResult;
import conewise.jig.sweep.SweepSettings;
import conewise.simulator.analog.Contact;
import conewise.simulator.analog.Converter;
import conewise.simulator.analog.JigImperfections;
import conewise.simulator.box.Box;
import conewise.simulator.box.Wiring;
import conewise.simulator.box.Wiring.ForeignVoltage;
import conewise.simulator.world.DemoWorld;
import conewise.simulator.world.World;
import conewise.station.measuring.JigChoice;
import conewise.station.measuring.StopRequest;
import java.util.Optional;
import org.junit.jupiter.api.Test;
import org.junit.jupiter.params.ParameterizedTest;
import org.junit.jupiter.params.provider.CsvSource;

/** What a person may do wrong at each step, and what the reading says of it. */
class WrongStepTest {
  private static final JigImperfections JIG = JigImperfections.fivePercent(5);

  private static Optional<String> said(CalibrationStep step, Box onClips, JigImperfections jig)
      throws Exception {
    World world = DemoWorld.HERON.load().with(jig).with(onClips).withSeed(5);
    try (StopRequest stop = StopRequest.listen();
        JigClient client = new JigChoice.Virtual(world).connect(StillScreen.progress())) {
      SweepResult result =
          Calibrating.sweep(
              client, SweepSettings.standard().listeningOnly(), StillScreen.progress(), stop);
      return step.wrong(result, 10);
    }
  }

  @ParameterizedTest
  @CsvSource({
    "OPEN, 0.001, clips",
    "OPEN, 10, Something is still between the clips",
    "OPEN, 400, Something is still between the clips",
    "SHORT, 1e7, still open",
    "SHORT, 10, joined clips read at most 0.5 ohm",
    "RESISTOR, 1e7, still open",
    "RESISTOR, 0.001, still joined",
    "RESISTOR, 1, one part in 10 of it: look at the multiplier band",
    "RESISTOR, 100, about 10 times of it: look at the multiplier band",
    "RESISTOR, 15, It is another resistor"
  })
  void aWrongLoadIsNamed(CalibrationStep step, double ohm, String said) throws Exception {
    String sentence = said(step, Box.load(Wiring.ohm(ohm)), JIG).orElse("nothing");
    assertTrue(sentence.contains(said), sentence);
    assertEquals(1, sentence.lines().count());
  }

  @ParameterizedTest
  @CsvSource({"OPEN, 1e7", "SHORT, 0.001", "RESISTOR, 10", "RESISTOR, 9.5", "RESISTOR, 10.5"})
  void aRightLoadIsTaken(CalibrationStep step, double ohm) throws Exception {
    assertEquals(Optional.empty(), said(step, Box.load(Wiring.ohm(ohm)), JIG));
  }

  @ParameterizedTest
  @CsvSource({"1", "2.2", "47", "200"})
  void aResistorAtTheEndsOfWhatIsAllowedIsTaken(double ohm) throws Exception {
    World world = DemoWorld.HERON.load().with(JIG).with(Box.load(Wiring.ohm(ohm))).withSeed(5);
    try (StopRequest stop = StopRequest.listen();
        JigClient client = new JigChoice.Virtual(world).connect(StillScreen.progress())) {
      SweepResult result =
          Calibrating.sweep(
              client, SweepSettings.standard().listeningOnly(), StillScreen.progress(), stop);
      assertEquals(Optional.empty(), CalibrationStep.RESISTOR.wrong(result, ohm));
    }
  }

  /** Its middle modulus may be that of the resistor; that it bends gives it away. */
  @ParameterizedTest
  @CsvSource({"DIPPER", "HERON"})
  void aBoxIsNoResistor(DemoWorld world) throws Exception {
    String sentence = said(CalibrationStep.RESISTOR, world.load().box(), JIG).orElse("nothing");
    assertTrue(
        sentence.contains("a box or a coil is still between the clips")
            || sentence.contains("another resistor"),
        sentence);
  }

  @ParameterizedTest
  @CsvSource({"SHORT, 0.001", "RESISTOR, 10"})
  void aContactThatMovesIsNamed(CalibrationStep step, double ohm) throws Exception {
    JigImperfections loose = JIG.with(new Contact(0.05, 2, 2));
    String sentence = said(step, Box.load(Wiring.ohm(ohm)), loose).orElse("nothing");
    assertTrue(sentence.contains("clips home"), sentence);
  }

  @ParameterizedTest
  @CsvSource({"OPEN, 1e7, 0.6", "SHORT, 0.5, 3", "RESISTOR, 10, 1"})
  void aForeignVoltageIsNamedAndNothingIsDrivenAgainstIt(
      CalibrationStep step, double ohm, double volt) throws Exception {
    JigImperfections battery = JIG.with(new ForeignVoltage(5, volt, 0, 0));
    String sentence = said(step, Box.load(Wiring.ohm(ohm)), battery).orElse("nothing");
    assertTrue(sentence.contains("stands on the terminals"), sentence);
    assertTrue(sentence.contains("Take any amplifier or battery off"), sentence);
  }

  @Test
  void noiseIsNamed() throws Exception {
    JigImperfections noisy = JIG.with(new Converter(17, 0.3));
    String sentence =
        said(CalibrationStep.RESISTOR, Box.load(Wiring.ohm(10)), noisy).orElse("nothing");
    assertTrue(sentence.contains("by noise"), sentence);
  }
}
