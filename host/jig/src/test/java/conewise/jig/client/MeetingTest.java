package conewise.jig.client;

import static org.junit.jupiter.api.Assertions.assertEquals;
import static org.junit.jupiter.api.Assertions.assertInstanceOf;
import static org.junit.jupiter.api.Assertions.assertThrows;
import static org.junit.jupiter.api.Assertions.assertTrue;

import conewise.jig.workbench.ScriptedJig;
import conewise.protocol.link.ByteLink;
import java.nio.charset.StandardCharsets;
import java.util.ArrayList;
import java.util.List;
import java.util.Random;
import org.junit.jupiter.api.Test;

/** How a jig is met, and what is said when there is none. */
class MeetingTest {

  private static JigFault fault(ByteLink link) {
    return assertThrows(JigFaultException.class, () -> JigClient.connect(link, JigListener.NONE))
        .fault();
  }

  private static List<String> identityWith(String from, String to) {
    List<String> details = new ArrayList<>(ScriptedJig.IDENTITY);
    details.replaceAll(detail -> detail.replace(from, to));
    return details;
  }

  @Test
  void identifyIsTheFirstRequestAndEmptyLinesEndWhatStoodHalfWritten() throws Exception {
    ScriptedJig jig = ScriptedJig.answering((j, request) -> {});
    JigClient client = JigClient.connect(jig, JigListener.NONE);
    assertTrue(jig.heard().get(0).endsWith(" identify"), jig.heard().toString());
    assertEquals("test", client.identity().jig().board());
    assertEquals(64e-6, client.identity().tickSeconds(), 1e-15);
  }

  @Test
  void aBoardThatOpeningResetIsMetWhenItSaysReady() throws Exception {
    ScriptedJig jig = new ScriptedJig((j, request) -> {}); // deaf while it boots
    jig.sayAfter(2900, "! ready cause=reset protocol=1 firmware=1.2 board=test");
    jig.follow(
        (j, request) -> {
          if (j.nanoTime() >= 2_900_000_000L) {
            String tag = request.substring(0, request.indexOf(' '));
            if (request.endsWith("identify")) {
              j.sayIdentity(tag, ScriptedJig.IDENTITY);
            } else {
              j.say(tag + " ok");
            }
          }
        });
    JigClient client = JigClient.connect(jig, JigListener.NONE);
    assertTrue(client.health().repeatedRequests() >= 3, client.health().toString());
    assertTrue(jig.nanoTime() < 3_100_000_000L, "met after " + jig.nanoTime() + " ns");
  }

  @Test
  void aSilentPortIsGivenUpAfterFiveSecondsAndLetGoOf() {
    ScriptedJig silent = new ScriptedJig((j, request) -> {});
    JigFault fault = fault(silent);
    assertInstanceOf(JigFault.NoAnswer.class, fault);
    assertEquals(5.0, silent.nanoTime() * 1e-9, 0.01);
    assertTrue(silent.isClosed());
  }

  @Test
  void randomBabbleIsNamedAForeignDevice() {
    long seed = new Random().nextLong();
    Random random = new Random(seed);
    ScriptedJig babbler = new ScriptedJig((j, request) -> {});
    for (int at = 0; at < 8000; at++) {
      byte[] noise = new byte[random.nextInt(200) + 1];
      random.nextBytes(noise);
      babbler.rawAfter(at, noise);
    }
    JigFault fault = fault(babbler);
    assertInstanceOf(JigFault.ForeignDevice.class, fault, "seed " + seed);
    assertEquals(5.0, babbler.nanoTime() * 1e-9, 0.1, "seed " + seed);
  }

  @Test
  void linesOfAnotherProtocolAreNamedAForeignDevice() {
    ScriptedJig other =
        new ScriptedJig((j, request) -> j.rawAfter(1, "?\r\n".getBytes(StandardCharsets.US_ASCII)));
    for (int at = 0; at < 6000; at += 100) {
      other.rawAfter(at, "T=21.5C H=40%\r\n".getBytes(StandardCharsets.US_ASCII));
    }
    JigFault fault = fault(other);
    assertInstanceOf(JigFault.ForeignDevice.class, fault);
    assertTrue(fault.sentence().contains("scripted jig"), fault.sentence());
  }

  @Test
  void anotherVersionIsRefusedByASentenceThatNamesBoth() {
    ScriptedJig newer =
        new ScriptedJig(
            (j, request) ->
                j.sayIdentity(ScriptedJig.tag(request), identityWith("protocol=1", "protocol=2")));
    JigFault fault = fault(newer);
    assertInstanceOf(JigFault.WrongVersion.class, fault);
    assertEquals(
        "The jig at scripted jig speaks protocol 2, but this program speaks protocol 1.",
        fault.sentence());
    assertEquals(1, newer.heard().size(), "it must not be asked anything else");
  }

  @Test
  void anAbsurdIdentityIsRefusedWithWhatIsAbsurd() {
    ScriptedJig absurd =
        new ScriptedJig(
            (j, request) ->
                j.sayIdentity(ScriptedJig.tag(request), identityWith("bits=10", "bits=99")));
    JigFault fault = fault(absurd);
    assertInstanceOf(JigFault.AbsurdAnswer.class, fault);
    assertTrue(fault.sentence().contains("99"), fault.sentence());
  }

  @Test
  void anIdentityWithADamagedLineIsAskedForAgain() throws Exception {
    int[] asked = {0};
    ScriptedJig jig =
        new ScriptedJig(
            (j, request) -> {
              String tag = ScriptedJig.tag(request);
              if (!request.endsWith("identify")) {
                j.say(tag + " ok");
              } else if (asked[0]++ > 0) {
                j.sayIdentity(tag, ScriptedJig.IDENTITY);
              } else {
                j.sayDamaged(tag + " + " + ScriptedJig.IDENTITY.get(0));
                List<String> rest = ScriptedJig.IDENTITY.subList(1, 10);
                rest.forEach(detail -> j.say(tag + " + " + detail));
                j.say(tag + " ok lines=10");
              }
            });
    JigClient client = JigClient.connect(jig, JigListener.NONE);
    assertEquals(2, jig.heard("identify"));
    assertEquals(1, client.health().damagedLines());
  }
}
