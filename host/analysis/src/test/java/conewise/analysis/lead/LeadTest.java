package conewise.analysis.lead;

import static org.junit.jupiter.api.Assertions.assertEquals;
import static org.junit.jupiter.api.Assertions.assertThrows;
import static org.junit.jupiter.api.Assertions.assertTrue;

import java.util.Random;
import org.junit.jupiter.api.Test;
import org.junit.jupiter.params.ParameterizedTest;
import org.junit.jupiter.params.provider.CsvSource;

class LeadTest {
  private static final double THOUSAND_FEET_M = 304.8;

  /** Diameters in inch of the table of ASTM B258, from memory. */
  @ParameterizedTest
  @CsvSource({
    "-3, 0.4600",
    "0, 0.3249",
    "10, 0.1019",
    "12, 0.0808",
    "14, 0.0641",
    "16, 0.0508",
    "18, 0.0403",
    "24, 0.0201",
    "36, 0.0050",
    "40, 0.0031"
  })
  void gaugesHaveTheDiametersOfTheTable(int awg, double inch) {
    assertEquals(inch, Gauge.awg(awg).diameterM() / 0.0254, 6e-5);
  }

  /** Ohm of 1000 ft at 20 degrees, of the copper wire tables (NBS Handbook 100, second-hand). */
  @ParameterizedTest
  @CsvSource({"10, 0.9989", "12, 1.588", "14, 2.525", "16, 4.016", "18, 6.385", "24, 25.67"})
  void wiresHaveTheResistanceOfTheTable(int awg, double ohm) {
    Lead lead = new Lead(Gauge.awg(awg), THOUSAND_FEET_M, 20);
    assertEquals(ohm, lead.ohmOneWay(), 0.0006 * ohm);
    assertEquals(2 * lead.ohmOneWay(), lead.ohm(), 0);
  }

  /** Six gauges double the diameter, three the section, nearly (rule of the trade). */
  @Test
  void threeGaugesThinnerIsHalfTheSection() {
    double ratio = Gauge.awg(12).areaM2() / Gauge.awg(15).areaM2();
    assertEquals(2, ratio, 0.01);
  }

  /**
   * By hand: 10 m of 2.5 mm2, out and back: 20 / 58 / 2.5 = 0.137931 ohm. Before 4 ohm: 20
   * log10(1.0344828) = 0.29446 dB; 3.3333 % of the amplifier's power in the lead; the load has 1 /
   * 1.0344828^2 = 93.444 %. On 3.2 ohm DC the electrical Q rises by 4.31 %.
   */
  @Test
  void aLeadTakesWhatADividerTakes() {
    Lead lead = new Lead(new Gauge(2.5e-6), 10, 20);
    assertEquals(0.137931, lead.ohm(), 1e-6);
    LeadLoss loss = lead.before(4);
    assertEquals(0.29446, loss.decibel(), 1e-4);
    assertEquals(0.033333, loss.powerInLead(), 1e-6);
    assertEquals(0.93444, loss.powerLeft(), 1e-5);
    assertEquals(1.0431, loss.electricalQFactor(3.2), 1e-4);
  }

  /** 0.393 % a kelvin: 30 K are 11.8 %. */
  @Test
  void warmCopperResistsMore() {
    double cold = new Lead(new Gauge(1e-6), 10, 20).ohm();
    assertEquals(1.1179 * cold, new Lead(new Gauge(1e-6), 10, 50).ohm(), 1e-6);
  }

  @Test
  void gaugeAndDiameterAndTheThinnestWireAreInverse() {
    long seed = Long.getLong("conewise.seed", System.nanoTime());
    System.out.println("gauges: -Dconewise.seed=" + seed);
    Random random = new Random(seed);
    for (int i = 0; i < 500; i++) {
      String which = "seed " + seed + ", case " + i;
      int awg = Gauge.THICKEST_AWG + random.nextInt(44);
      assertEquals(awg, Gauge.awg(awg).awg(), 1e-9, which);
      Gauge gauge = new Gauge(Math.exp(-18 + 6 * random.nextDouble()));
      double area = gauge.areaM2();
      assertEquals(area, Gauge.ofDiameter(gauge.diameterM()).areaM2(), 1e-12 * area, which);
      double metres = 0.5 + 50 * random.nextDouble();
      double load = 1 + 15 * random.nextDouble();
      double celsius = 60 * random.nextDouble();
      double decibel = new Lead(gauge, metres, celsius).before(load).decibel();
      Gauge again = Lead.thinnest(decibel, load, metres, celsius);
      assertEquals(area, again.areaM2(), 1e-9 * area, which);
    }
  }

  @Test
  void writesThickGaugesAsTheTradeDoes() {
    assertEquals("14 AWG", Gauge.written(14));
    assertEquals("1/0 AWG", Gauge.written(0));
    assertEquals("4/0 AWG", Gauge.written(-3));
  }

  @Test
  void refusesWhatIsNoWire() {
    String message = assertThrows(IllegalArgumentException.class, () -> Gauge.awg(41)).getMessage();
    assertTrue(message.contains("41") && message.contains("40"), message);
    Gauge gauge = Gauge.awg(14);
    assertThrows(IllegalArgumentException.class, () -> new Lead(gauge, 0, 20));
    assertThrows(IllegalArgumentException.class, () -> new Lead(gauge, 1, 151));
    assertThrows(IllegalArgumentException.class, () -> new LeadLoss(0.1, 0));
    assertThrows(IllegalArgumentException.class, () -> new Gauge(Double.NaN));
  }
}
