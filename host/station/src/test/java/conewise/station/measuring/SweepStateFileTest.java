package conewise.station.measuring;

import static org.junit.jupiter.api.Assertions.assertArrayEquals;
import static org.junit.jupiter.api.Assertions.assertEquals;
import static org.junit.jupiter.api.Assertions.assertInstanceOf;
import static org.junit.jupiter.api.Assertions.assertThrows;
import static org.junit.jupiter.api.Assertions.assertTrue;

import conewise.jig.client.JigClient;
import conewise.jig.client.JigListener;
import conewise.jig.sweep.CurveSoFar;
import conewise.jig.sweep.Interrupted;
import conewise.jig.sweep.SweepListener;
import conewise.jig.sweep.SweepResult;
import conewise.jig.sweep.SweepSettings;
import conewise.jig.sweep.SweepState;
import conewise.jig.sweep.ThoroughSweep;
import conewise.simulator.jig.JigSetup;
import conewise.simulator.jig.VirtualJig;
import conewise.simulator.link.MemoryLink;
import conewise.simulator.world.DemoWorld;
import conewise.station.files.BadFileException;
import java.nio.file.Files;
import java.nio.file.Path;
import java.util.Arrays;
import java.util.Random;
import org.junit.jupiter.api.Test;
import org.junit.jupiter.api.io.TempDir;

class SweepStateFileTest {
  @TempDir Path folder;

  @Test
  void anInterruptedSweepGoesOnFromItsFileToTheEnd() throws Exception {
    SweepState state = interrupted();
    Path file = folder.resolve("sweep.json");
    SweepStateFile.write(file, state);
    SweepState read = SweepStateFile.read(file);
    assertEquals(state.kind(), read.kind());
    assertEquals(state.jig(), read.jig());
    assertEquals(state.readings(), read.readings());
    assertArrayEquals(
        state.selfCheck().orElseThrow().idle().voltageVolt().values(),
        read.selfCheck().orElseThrow().idle().voltageVolt().values());
    try (JigClient client = connect()) {
      SweepResult result =
          assertInstanceOf(
              SweepResult.class,
              new ThoroughSweep(SweepSettings.standard()).resume(client, read, SweepListener.NONE));
      assertTrue(result.frequenciesHz().size() > state.readings().size());
    }
  }

  @Test
  void damageIsAlwaysToldInOneSentence() throws Exception {
    Path file = folder.resolve("sweep.json");
    SweepStateFile.write(file, interrupted());
    byte[] whole = Files.readAllBytes(file);
    long seed = 20261125;
    Random random = new Random(seed);
    int refused = 0;
    for (int run = 0; run < 150; run++) {
      byte[] damaged = whole.clone();
      if (run % 3 == 0) {
        damaged = Arrays.copyOf(whole, random.nextInt(whole.length));
      } else {
        // The head of the file holds the keys and words; its tail is numbers.
        damaged[random.nextInt(3000)] = (byte) random.nextInt(256);
      }
      Files.write(file, damaged);
      try {
        SweepStateFile.read(file);
      } catch (BadFileException bad) {
        refused++;
        assertEquals(1, bad.getMessage().lines().count(), "seed " + seed + ", run " + run);
      }
    }
    assertTrue(refused > 50, "seed " + seed + ": only " + refused + " of 150 were refused");
  }

  @Test
  void whatIsNoSuchFileIsRefusedByName() throws Exception {
    Path other = Files.writeString(folder.resolve("other.json"), "{\"schema\":\"x\"}");
    BadFileException bad = assertThrows(BadFileException.class, () -> SweepStateFile.read(other));
    assertTrue(bad.getMessage().contains("other.json"), bad.getMessage());
    assertThrows(BadFileException.class, () -> SweepStateFile.read(folder.resolve("absent.json")));
  }

  private static SweepState interrupted() throws Exception {
    try (JigClient client = connect()) {
      Interrupted interrupted =
          assertInstanceOf(
              Interrupted.class,
              new ThoroughSweep(SweepSettings.standard()).run(client, new StopAfterThreePoints()));
      assertTrue(!interrupted.state().readings().isEmpty(), "nothing was kept");
      return interrupted.state();
    }
  }

  private static JigClient connect() throws Exception {
    VirtualJig jig = new VirtualJig(DemoWorld.WREN.load().start(), JigSetup.standard());
    return JigClient.connect(new MemoryLink(jig), JigListener.NONE);
  }

  private static final class StopAfterThreePoints implements SweepListener {
    private boolean enough;

    @Override
    public void progress(double fraction, String what, CurveSoFar soFar) {
      enough = soFar.points().size() >= 3;
    }

    @Override
    public boolean wantsToStop() {
      return enough;
    }
  }
}
