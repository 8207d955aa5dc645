package conewise.jig.conformance;

import static org.junit.jupiter.api.Assertions.assertEquals;
import static org.junit.jupiter.api.Assertions.assertThrows;
import static org.junit.jupiter.api.Assertions.assertTrue;

import conewise.jig.conformance.Conformance.Outcome;
import conewise.jig.conformance.Conformance.Result;
import conewise.protocol.JigIdentity;
import conewise.protocol.link.ByteLink;
import conewise.protocol.link.LinkLostException;
import conewise.simulator.box.Box;
import conewise.simulator.box.Wiring;
import conewise.simulator.jig.JigSetup;
import conewise.simulator.jig.VirtualJig;
import conewise.simulator.link.MemoryLink;
import conewise.simulator.world.DemoWorld;
import java.time.Duration;
import java.util.List;
import java.util.stream.Collectors;
import org.junit.jupiter.api.Test;

class ConformanceTest {
  private static VirtualJig jig(JigSetup setup) {
    return new VirtualJig(
        DemoWorld.HERON.load().with(Box.load(new Wiring.Resistance(10))).start(), setup);
  }

  private static List<Result> run(JigSetup setup, boolean withStore) throws LinkLostException {
    JigIdentity identity = jig(setup).identity();
    return new Conformance(() -> new MemoryLink(jig(setup)), withStore).run(identity, r -> {});
  }

  private static List<Result> of(List<Result> results, Outcome outcome) {
    return results.stream().filter(each -> each.outcome() == outcome).collect(Collectors.toList());
  }

  @Test
  void theVirtualJigHoldsEveryDialogueThatAppliesToIt() throws Exception {
    List<Result> results = run(JigSetup.standard(), true);
    assertEquals(List.of(), of(results, Outcome.BROKEN));
    assertTrue(of(results, Outcome.HELD).size() >= 50, results.size() + " dialogues");
  }

  @Test
  void aBareJigOnASlowLinkHoldsItsOwn() throws Exception {
    JigSetup bare =
        JigSetup.standard()
            .withFitted(new JigIdentity.Fitted(false, false, false))
            .withBaud(115_200);
    assertEquals(List.of(), of(run(bare, true), Outcome.BROKEN));
  }

  @Test
  void whatAJigKeepsIsLeftAloneUnlessAskedFor() throws Exception {
    assertTrue(
        of(run(JigSetup.standard(), false), Outcome.PASSED_OVER).stream()
            .anyMatch(each -> each.dialogue().startsWith("store.txt")));
  }

  /** A jig that mishears every limit. */
  private record Wilful(ByteLink link) implements ByteLink {
    @Override
    public void write(byte[] bytes) throws LinkLostException {
      link.write(
          new String(bytes, java.nio.charset.StandardCharsets.ISO_8859_1)
              .replace("limit peak=", "limit  peak=")
              .getBytes(java.nio.charset.StandardCharsets.ISO_8859_1));
    }

    @Override
    public int read(byte[] buffer, Duration timeout) throws LinkLostException {
      return link.read(buffer, timeout);
    }

    @Override
    public long nanoTime() {
      return link.nanoTime();
    }

    @Override
    public String description() {
      return "a wilful jig";
    }

    @Override
    public void close() {
      link.close();
    }
  }

  @Test
  void aJigThatDepartsFromTheSpecificationIsToldWhereWithWhatWentToAndFro() throws Exception {
    JigIdentity identity = jig(JigSetup.standard()).identity();
    List<Result> broken =
        of(
            new Conformance(() -> new Wilful(new MemoryLink(jig(JigSetup.standard()))), false)
                .run(identity, r -> {}),
            Outcome.BROKEN);
    assertTrue(!broken.isEmpty());
    Result first = broken.get(0);
    assertTrue(first.complaint().contains("step"), first::toString);
    assertTrue(first.exchange().stream().anyMatch(line -> line.startsWith("> ")));
    assertTrue(first.exchange().stream().anyMatch(line -> line.startsWith("< ")));
    assertTrue(!first.section().isBlank());
  }

  @Test
  void aLinkThatIsLostBreaksTheDialogueAndNothingHangs() throws Exception {
    JigIdentity identity = jig(JigSetup.standard()).identity();
    List<Result> results =
        new Conformance(() -> new Unplugged(new MemoryLink(jig(JigSetup.standard()))), false)
            .run(identity, r -> {});
    assertEquals(List.of(), of(results, Outcome.HELD));
  }

  @Test
  void aJigThatDoesNotStartAfreshIsSaidToBeSoAtOnce() {
    MemoryLink kept = new MemoryLink(jig(JigSetup.standard()));
    LinkLostException lost =
        assertThrows(
            LinkLostException.class,
            () -> {
              kept.read(new byte[200], Duration.ofSeconds(1));
              kept.read(new byte[200], Duration.ofSeconds(1));
              new Conformance(() -> kept, false).run(jig(JigSetup.standard()).identity(), r -> {});
            });
    assertTrue(lost.getMessage().contains("No ready line came within 3 s"), lost.getMessage());
  }

  /** A link that is gone as soon as something is sent. */
  private record Unplugged(ByteLink link) implements ByteLink {
    @Override
    public void write(byte[] bytes) throws LinkLostException {
      throw new LinkLostException("the virtual jig was unplugged");
    }

    @Override
    public int read(byte[] buffer, Duration timeout) throws LinkLostException {
      return link.read(buffer, timeout);
    }

    @Override
    public long nanoTime() {
      return link.nanoTime();
    }

    @Override
    public String description() {
      return link.description();
    }

    @Override
    public void close() {
      link.close();
    }
  }
}
