package conewise.jig.sweep;

import static org.junit.jupiter.api.Assertions.assertEquals;
import static org.junit.jupiter.api.Assertions.assertFalse;
import static org.junit.jupiter.api.Assertions.assertTrue;

import conewise.jig.client.JigClient;
import conewise.jig.workbench.Workbench;
import conewise.simulator.analog.Converter;
import conewise.simulator.analog.JigImperfections;
import conewise.simulator.analog.JigImperfections.Amplifier;
import conewise.simulator.box.Wiring.ForeignVoltage;
import java.util.List;
import org.junit.jupiter.api.Test;

class OpenClipsProofTest {
  private static OpenClipsProof.Report run(Workbench bench) throws Exception {
    try (JigClient client = bench.connect()) {
      return new OpenClipsProof().run(client, SweepListener.NONE);
    }
  }

  private static List<String> wrong(Workbench bench) throws Exception {
    return run(bench).items().stream()
        .filter(item -> !item.right())
        .map(OpenClipsProof.Item::what)
        .toList();
  }

  @Test
  void jigsOfFivePercentPartsAreRight() throws Exception {
    for (long seed = 1; seed <= 6; seed++) {
      Workbench bench = Workbench.open().with(JigImperfections.fivePercent(seed)).withSeed(seed);
      assertEquals(List.of(), wrong(bench), "seed " + seed);
    }
  }

  @Test
  void whatIsReadIsWhatTheJigIs() throws Exception {
    Amplifier voltage = new Amplifier(1.04, 12, 1500);
    Amplifier current = new Amplifier(1, -9, 1500);
    JigImperfections jig = JigImperfections.nominal().withAmplifiers(voltage, current);
    List<OpenClipsProof.Item> items = run(Workbench.open().with(jig)).items();
    assertEquals(12, items.get(0).value(), 0.5);
    assertEquals(-9, items.get(2).value(), 0.5);
    assertEquals(1.04, items.get(4).value(), 0.005);
  }

  @Test
  void eachFaultIsNamed() throws Exception {
    JigImperfections nominal = JigImperfections.nominal();
    Amplifier exact = nominal.voltage();
    assertEquals(
        List.of("zero of the current"),
        wrong(Workbench.open().with(nominal.withAmplifiers(exact, new Amplifier(1, 60, 1500)))));
    assertEquals(
        List.of("voltage on open clips over what was asked"),
        wrong(Workbench.open().with(nominal.withAmplifiers(new Amplifier(0.5, 0, 1500), exact))));
    assertEquals(
        List.of("noise of the voltage at rest", "noise of the current at rest"),
        wrong(Workbench.open().with(nominal.with(new Converter(6, 0.3)))));
    assertTrue(wrong(Workbench.resistor(100).with(nominal)).contains("leakage of open clips"));
  }

  @Test
  void nothingIsDrivenAgainstAForeignVoltage() throws Exception {
    JigImperfections battery = JigImperfections.nominal().with(new ForeignVoltage(5, 0.5, 0, 0));
    OpenClipsProof.Report report = run(Workbench.open().with(battery));
    assertTrue(report.spoilt());
    assertFalse(report.items().stream().anyMatch(item -> item.what().contains("what was asked")));
  }
}
