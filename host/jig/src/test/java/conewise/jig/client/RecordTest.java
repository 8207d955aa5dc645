package conewise.jig.client;

import static org.junit.jupiter.api.Assertions.assertArrayEquals;
import static org.junit.jupiter.api.Assertions.assertEquals;
import static org.junit.jupiter.api.Assertions.assertFalse;
import static org.junit.jupiter.api.Assertions.assertInstanceOf;
import static org.junit.jupiter.api.Assertions.assertThrows;
import static org.junit.jupiter.api.Assertions.assertTrue;

import conewise.analysis.sampling.Capture;
import conewise.analysis.sampling.SampledChannel;
import conewise.jig.workbench.ScriptedJig;
import conewise.jig.workbench.Workbench;
import conewise.simulator.jig.JigSetup;
import java.util.ArrayList;
import java.util.Arrays;
import java.util.List;
import java.util.function.Consumer;
import org.junit.jupiter.api.Test;

/** A record is whole, or it is a typed fault. Data was encoded by hand: A = 0 ... / = 63. */
class RecordTest {

  private static final String STATUS =
      " ok tick=5 wave=%s recording=0 foot=up clipped=0 damaged=0 refused=0 overruns=0 halts=%d";

  private ScriptedJig jig;
  private String wave = "none";
  private int halts;

  /** A jig whose records go as told; waves start at tick 100. */
  private JigClient client(Consumer<ScriptedJig> record) throws JigFaultException {
    jig =
        ScriptedJig.answering(
            (j, request) -> {
              String tag = ScriptedJig.tag(request);
              switch (ScriptedJig.verb(request)) {
                case "status" -> j.say(tag + STATUS.formatted(wave, halts));
                case "play" -> {
                  wave = "tone";
                  j.say(tag + " ok step=1000 tick=100");
                }
                default -> {
                  int decimate =
                      request.contains("decimate=1") && !request.contains("decimate=16") ? 1 : 16;
                  j.say(
                      tag
                          + " ok record=7 first_tick=300 interval_ticks="
                          + 2 * decimate
                          + (decimate == 1
                              ? " block_frames=32 digits=2"
                              : " block_frames=21 digits=3"));
                  record.accept(j);
                }
              }
            });
    return JigClient.connect(jig, JigListener.NONE);
  }

  private JigFault fault(RecordOrder order, Consumer<ScriptedJig> record) throws Exception {
    JigClient client = client(record);
    return assertThrows(JigFaultException.class, () -> client.record(order, RecordProgress.NONE))
        .fault();
  }

  @Test
  void codesBecomeVoltAndAmpereOnTheirTrueInstantsCountedFromPhaseZero() throws Exception {
    JigClient client =
        client(
            j -> {
              // Two frames: (512, 500) = "IA","H0"; (612, 400) = "Jk","GQ" (612 = 9*64+36).
              j.say(": 07 0000 IAH0JkGQ");
              j.say("! recorded record=7 frames=2 blocks=1 complete=yes low=512,400 high=612,500");
            });
    client.play(new Wave.Tone(1000, 100));
    Recording recording = client.record(RecordOrder.raw(2, 0), RecordProgress.NONE);
    var voltage = recording.capture().voltageVolt();
    var current = recording.capture().currentAmpere();
    assertArrayEquals(new double[] {0, 0.2}, voltage.values(), 1e-12);
    assertArrayEquals(new double[] {0, 0.01}, current.values(), 1e-12);
    // (300 - 100) ticks of 64 us; the second channel 64 us later; two ticks a frame.
    assertEquals(0.0128, voltage.firstInstantSeconds(), 1e-12);
    assertEquals(0.012864, current.firstInstantSeconds(), 1e-12);
    assertEquals(128e-6, voltage.intervalSeconds(), 1e-15);
    // Rails: codes 0 and 1023 by (code - offset) x per_code, the current's path inverting.
    assertEquals(-1.024, voltage.lowRail(), 1e-12);
    assertEquals(1.022, voltage.highRail(), 1e-12);
    assertEquals(-0.0523, current.lowRail(), 1e-12);
    assertEquals(0.05, current.highRail(), 1e-12);
    assertFalse(recording.touchedRail());
  }

  @Test
  void sumsStandForTheMiddleOfTheirFrames() throws Exception {
    JigClient client =
        client(
            j -> {
              // One frame of sums of 16: 8192 = "CAA", 8016 = 1*4096 + 61*64 + 16 = "B9Q".
              j.say(": 07 0000 CAAB9Q");
              j.say("! recorded record=7 frames=1 blocks=1 complete=yes low=511,500 high=513,502");
            });
    client.play(new Wave.Tone(1000, 100));
    Recording recording = client.record(new RecordOrder(2, 1, 0, 16), RecordProgress.NONE);
    assertEquals(0.0, recording.capture().voltageVolt().values()[0], 1e-12);
    assertEquals(-0.0001, recording.capture().currentAmpere().values()[0], 1e-12);
    // 200 ticks and 15/2 frames of 2 ticks each: 215 ticks of 64 us.
    assertEquals(0.01376, recording.capture().voltageVolt().firstInstantSeconds(), 1e-12);
    assertEquals(32 * 64e-6, recording.capture().voltageVolt().intervalSeconds(), 1e-12);
  }

  @Test
  void aMissingBlockIsSeenAndNotBridged() throws Exception {
    JigFault fault =
        fault(
            RecordOrder.raw(96, 0),
            j -> {
              j.say(": 07 0000 " + "IAH0".repeat(32));
              j.say(": 07 0002 " + "IAH0".repeat(32));
              j.say("! recorded record=7 frames=96 blocks=3 complete=yes low=512,500 high=512,500");
            });
    JigFault.DamagedBlock block = assertInstanceOf(JigFault.DamagedBlock.class, fault);
    assertEquals(1, block.block());
    assertTrue(block.isPassing());
  }

  @Test
  void aDamagedLastBlockIsSeenAtTheEnd() throws Exception {
    JigFault fault =
        fault(
            RecordOrder.raw(33, 0),
            j -> {
              j.say(": 07 0000 " + "IAH0".repeat(32));
              j.sayDamaged(": 07 0001 IAH0");
              j.say("! recorded record=7 frames=33 blocks=2 complete=yes low=512,500 high=512,500");
            });
    assertInstanceOf(JigFault.DamagedBlock.class, fault);
  }

  @Test
  void samplesThatTheJigsOwnExtremesContradictAreRefused() throws Exception {
    JigFault fault =
        fault(
            RecordOrder.raw(1, 0),
            j -> {
              j.say(": 07 0000 IAH0");
              j.say("! recorded record=7 frames=1 blocks=1 complete=yes low=510,500 high=512,500");
            });
    assertInstanceOf(JigFault.DamagedBlock.class, fault);
  }

  @Test
  void aSampleBeyondTheConverterIsAbsurd() throws Exception {
    JigFault fault =
        fault(
            RecordOrder.raw(1, 0),
            j -> j.say(": 07 0000 //H0")); // 4095 of a converter of 1024 codes
    assertInstanceOf(JigFault.AbsurdAnswer.class, fault);
    assertTrue(fault.sentence().contains("4095"), fault.sentence());
  }

  @Test
  void blocksOfARecordThatWasGivenUpAreIgnored() throws Exception {
    JigClient client =
        client(
            j -> {
              j.say(": 06 0009 " + "//H0".repeat(32));
              j.say(": 07 0000 IAH0");
              j.say("! recorded record=7 frames=1 blocks=1 complete=yes low=512,500 high=512,500");
            });
    assertEquals(
        1,
        client.record(RecordOrder.raw(1, 0), RecordProgress.NONE).capture().voltageVolt().length());
  }

  @Test
  void anOverrunIsNamed() throws Exception {
    JigFault fault =
        fault(
            RecordOrder.raw(96, 0),
            j -> {
              j.say(": 07 0000 " + "IAH0".repeat(32));
              j.say("! recorded record=7 frames=32 blocks=1 complete=no low=512,500 high=512,500");
              j.say("! overrun record=7");
            });
    assertEquals(new JigFault.Overrun(7), fault);
  }

  @Test
  void aHaltIsNamedByItsCauseAndClippingIsNotTriedAgain() throws Exception {
    JigFault fault =
        fault(
            RecordOrder.raw(96, 0),
            j -> {
              j.say("! recorded record=7 frames=0 blocks=0 complete=no");
              j.say("! halted cause=clipping");
            });
    assertEquals(new JigFault.Halted("clipping"), fault);
    assertFalse(fault.isPassing());
  }

  @Test
  void aRestartInTheMiddleIsALostSession() throws Exception {
    JigFault fault =
        fault(
            RecordOrder.raw(96, 0),
            j -> {
              j.say(": 07 0000 " + "IAH0".repeat(32));
              j.say("! ready cause=watchdog protocol=1 firmware=1.2 board=test");
            });
    assertEquals(new JigFault.SessionLost("watchdog"), fault);
  }

  @Test
  void aRecordThatStallsIsGivenUpWithinASecondOfItsDueTime() throws Exception {
    JigFault fault =
        fault(RecordOrder.raw(7812, 7812), j -> {}); // one second left out, then nothing
    assertInstanceOf(JigFault.DamagedBlock.class, fault);
    assertEquals(1.0, jig.nanoTime() * 1e-9, 0.8);
  }

  @Test
  void otherLinesThatKeepComingDoNotKeepAStalledRecordAlive() throws Exception {
    JigFault fault =
        fault(
            RecordOrder.raw(32, 0),
            j -> {
              for (int at = 0; at < 60_000; at += 50) {
                j.sayAfter(at, "! foot state=down");
              }
            });
    assertInstanceOf(JigFault.DamagedBlock.class, fault);
    assertTrue(jig.nanoTime() < 2_000_000_000L, "took " + jig.nanoTime() + " ns");
  }

  @Test
  void aHaltWhoseOwnLineWasLostIsSeenAfterwards() throws Exception {
    JigClient client =
        client(
            j -> {
              wave = "none";
              halts = 1;
              j.sayDamaged("! halted cause=refused");
              j.say(": 07 0000 IAH0");
              j.say("! recorded record=7 frames=1 blocks=1 complete=yes low=512,500 high=512,500");
            });
    client.play(new Wave.Tone(1000, 100));
    JigFault fault =
        assertThrows(
                JigFaultException.class,
                () -> client.record(RecordOrder.raw(1, 0), RecordProgress.NONE))
            .fault();
    assertEquals(new JigFault.Halted("unknown"), fault);
  }

  @Test
  void whoeverAskedMayGiveUp() throws Exception {
    JigClient client = client(j -> {});
    JigFault fault =
        assertThrows(
                JigFaultException.class,
                () -> client.record(RecordOrder.raw(99, 0), (frames, of) -> false))
            .fault();
    assertEquals(new JigFault.Cancelled(), fault);
  }

  @Test
  void whatIsToldWhileARecordComesIsTheRecordPieceByPiece() throws Exception {
    List<Capture> pieces = new ArrayList<>();
    RecordProgress keeping =
        new RecordProgress() {
          @Override
          public void came(Capture piece) {
            pieces.add(piece);
          }

          @Override
          public boolean goOn(int frames, int ofFrames) {
            return frames == pieces.stream().mapToInt(each -> each.voltageVolt().length()).sum();
          }
        };
    try (JigClient client = Workbench.resistor(8).connect()) {
      client.play(new Wave.Tone(10_000_000, 100));
      Capture whole = client.record(RecordOrder.raw(1000, 5), keeping).capture();
      assertSamePieces(whole.voltageVolt(), pieces.stream().map(Capture::voltageVolt).toList());
      assertSamePieces(whole.currentAmpere(), pieces.stream().map(Capture::currentAmpere).toList());
    }
  }

  private static void assertSamePieces(SampledChannel whole, List<SampledChannel> pieces) {
    assertTrue(pieces.size() > 10, pieces.size() + " pieces");
    int from = 0;
    for (SampledChannel piece : pieces) {
      int to = from + piece.length();
      assertArrayEquals(Arrays.copyOfRange(whole.values(), from, to), piece.values());
      double instant = whole.firstInstantSeconds() + from * whole.intervalSeconds();
      assertEquals(instant, piece.firstInstantSeconds(), 1e-12);
      assertEquals(whole.intervalSeconds(), piece.intervalSeconds());
      assertEquals(whole.highRail(), piece.highRail());
      from = to;
    }
    assertEquals(whole.length(), from);
  }

  @Test
  void aLongRecordKeepsTheJigFromFallingSilent() throws Exception {
    try (JigClient client = Workbench.resistor(8).connect()) {
      client.play(new Wave.Tone(10_000_000, 100));
      int frames = 5 * 7812;
      Recording recording = client.record(RecordOrder.raw(frames, 0), RecordProgress.NONE);
      assertEquals(frames, recording.capture().voltageVolt().length());
      assertEquals("tone", client.status().wave());
      assertEquals(0, client.status().halts());
    }
  }

  @Test
  void aLinkThatCarriesLessThanItSaysIsAnOverrun() throws Exception {
    Workbench slow = Workbench.resistor(8).with(JigSetup.standard().withCarriedBaud(300_000));
    try (JigClient client = slow.connect()) {
      JigFaultException failed =
          assertThrows(
              JigFaultException.class,
              () -> client.record(RecordOrder.raw(20_000, 0), RecordProgress.NONE));
      assertInstanceOf(JigFault.Overrun.class, failed.fault());
    }
  }

  @Test
  void aRecordThatTheLinkCannotCarryIsRefusedWithBothFigures() throws Exception {
    Workbench slow = Workbench.resistor(8).with(JigSetup.standard().withBaud(115_200));
    try (JigClient client = slow.connect()) {
      JigFaultException failed =
          assertThrows(
              JigFaultException.class,
              () -> client.record(RecordOrder.raw(100, 0), RecordProgress.NONE));
      assertTrue(failed.getMessage().contains("needs=35401"), failed.getMessage());
      // Four fifths of 11 520 characters a second, rounded down.
      assertTrue(failed.getMessage().contains("has=9216"), failed.getMessage());
    }
  }
}
