package conewise.simulator.link;

import static org.junit.jupiter.api.Assertions.assertEquals;
import static org.junit.jupiter.api.Assertions.assertThrows;
import static org.junit.jupiter.api.Assertions.assertTrue;

import conewise.protocol.Accepted;
import conewise.protocol.Block;
import conewise.protocol.Message;
import conewise.protocol.Pushed;
import conewise.protocol.RecordShape;
import conewise.protocol.RecordStart;
import conewise.protocol.Requests;
import conewise.protocol.SampleCodec;
import conewise.protocol.link.LinkLostException;
import conewise.simulator.analog.JigImperfections;
import conewise.simulator.analog.VirtualAnalog;
import conewise.simulator.box.Box;
import conewise.simulator.box.Wiring;
import conewise.simulator.jig.JigSetup;
import conewise.simulator.jig.VirtualJig;
import java.time.Duration;
import java.util.List;
import org.junit.jupiter.api.Test;

class MemoryLinkTest {
  private static final double OHM = 6.8;

  private static VirtualJig jigOnResistor() {
    return new VirtualJig(
        new VirtualAnalog(Box.load(Wiring.ohm(OHM)), JigImperfections.ideal(), 1),
        JigSetup.standard());
  }

  @Test
  void toneThroughResistorComesBackAsItsOhms() throws LinkLostException {
    Host host = new Host(new MemoryLink(jigOnResistor()));
    host.listen(Duration.ofMillis(10));
    host.ask(Requests.playTone(8_589_935, 300, 0)); // 31.25 Hz: 250 frames a period
    List<Message> answer =
        host.ask(Requests.record(new RecordShape(2, 1), 2500, 500), Duration.ofMillis(500));

    assertEquals(250 * 2, 15_625 / 31.25, 1e-9);
    assertTrue(answer.stream().anyMatch(m -> m instanceof Accepted), answer.toString());
    double volts = 0;
    double amperes = 0;
    int frames = 0;
    for (Message message : answer) {
      if (message instanceof Block block) {
        SampleCodec.Samples samples =
            (SampleCodec.Samples) new SampleCodec(2, 2).decode(block.data());
        for (int frame = 0; frame < samples.frames(); frame++) {
          volts += Math.pow(samples.value(frame, 0) - 512, 2);
          amperes += Math.pow(samples.value(frame, 1) - 512, 2);
        }
        frames += samples.frames();
      }
    }
    assertEquals(2500, frames);
    // One code of voltage is 5/1024/3 V, of current a tenth of that in ampere (nominal). Codes are
    // rounded, which leaves well below 0.5 % on the root mean square of some 60 codes.
    assertEquals(OHM, 10 * Math.sqrt(volts / amperes), 0.005 * OHM);
  }

  @Test
  void waitingAndWritingTakeSimulatedTimeOnly() throws LinkLostException {
    MemoryLink link = new MemoryLink(jigOnResistor());
    Host host = new Host(link);
    host.listen(Duration.ofMillis(10));
    long before = link.nanoTime();
    assertEquals(0, link.read(new byte[10], Duration.ofMinutes(1)));
    assertEquals(60_000_000_000L, link.nanoTime() - before);
    before = link.nanoTime();
    link.write(new byte[5000]);
    assertEquals(0.1, (link.nanoTime() - before) * 1e-9, 64e-6, "5000 bytes of 10 bits at 500 kBd");
  }

  @Test
  void firstLineIsTheBannerAndRecordStartIsTyped() throws LinkLostException {
    Host host = new Host(new MemoryLink(jigOnResistor()));
    List<Message> banner = host.listen(Duration.ofMillis(10));
    assertEquals("ready", ((Pushed) banner.get(0)).event());
    List<Message> answer = host.ask(Requests.record(new RecordShape(3, 4), 5, 2));
    RecordStart start = RecordStart.from((Accepted) answer.get(0));
    assertEquals(12, start.intervalTicks());
  }

  @Test
  void closedLinkSaysSo() {
    MemoryLink link = new MemoryLink(jigOnResistor());
    link.close();
    link.close();
    LinkLostException lost =
        assertThrows(LinkLostException.class, () -> link.read(new byte[1], Duration.ofMillis(1)));
    assertTrue(lost.getMessage().contains("closed"), lost.getMessage());
  }
}
