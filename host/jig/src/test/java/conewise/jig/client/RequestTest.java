package conewise.jig.client;

import static org.junit.jupiter.api.Assertions.assertEquals;
import static org.junit.jupiter.api.Assertions.assertInstanceOf;
import static org.junit.jupiter.api.Assertions.assertThrows;
import static org.junit.jupiter.api.Assertions.assertTrue;
import static org.mockito.ArgumentMatchers.any;
import static org.mockito.Mockito.doThrow;
import static org.mockito.Mockito.mock;
import static org.mockito.Mockito.verify;
import static org.mockito.Mockito.when;

import conewise.jig.workbench.ScriptedJig;
import conewise.protocol.Pushed;
import conewise.protocol.Requests.Lamp;
import conewise.protocol.Requests.LampState;
import conewise.protocol.link.ByteLink;
import conewise.protocol.link.LinkLostException;
import java.util.ArrayList;
import java.util.List;
import java.util.function.BiConsumer;
import org.junit.jupiter.api.Test;
import org.junit.jupiter.api.function.Executable;

/** One request, one answer: what is repeated, what never is, and what each failure is called. */
class RequestTest {

  private static final String STATUS =
      " ok tick=5 wave=none recording=0 foot=up clipped=0 damaged=0 refused=0 overruns=0 halts=0";

  private final List<Pushed> pushed = new ArrayList<>();
  private ScriptedJig jig;

  private JigClient client(BiConsumer<ScriptedJig, String> script) throws JigFaultException {
    jig = ScriptedJig.answering(script);
    return JigClient.connect(jig, pushed::add);
  }

  private static String tag(String request) {
    return ScriptedJig.tag(request);
  }

  private static JigFault fault(Executable action) {
    return assertThrows(JigFaultException.class, action).fault();
  }

  @Test
  void aDamagedAnswerToStatusIsAskedForAgain() throws Exception {
    int[] asked = {0};
    JigClient client =
        client(
            (j, request) -> {
              if (asked[0]++ == 0) {
                j.sayDamaged(tag(request) + STATUS);
              } else {
                j.say(tag(request) + STATUS);
              }
            });
    assertEquals(5, client.status().tick());
    assertEquals(2, jig.heard("status"));
    assertEquals(1, client.health().damagedLines());
    assertEquals(1, client.health().repeatedRequests());
  }

  @Test
  void aLampIsAskedForThreeTimesAndThenGivenUp() throws Exception {
    JigClient client = client((j, request) -> {});
    JigFault fault = fault(() -> client.lamp(Lamp.PASS, LampState.ON));
    assertInstanceOf(JigFault.NoAnswer.class, fault);
    assertEquals(3, jig.heard("lamp"));
    assertTrue(jig.nanoTime() < 1_500_000_000L, "took " + jig.nanoTime() + " ns");
  }

  @Test
  void aPlayWhoseAnswerWasLostIsNeverRepeated() throws Exception {
    JigClient client =
        client(
            (j, request) -> {
              if (request.contains("status")) {
                j.say(tag(request) + STATUS);
              } else {
                j.sayDamaged(tag(request) + " ok step=1000 tick=7");
              }
            });
    JigFault fault = fault(() -> client.play(new Wave.Tone(1000, 100)));
    assertInstanceOf(JigFault.NoAnswer.class, fault);
    assertTrue(fault.isPassing());
    assertEquals(1, jig.heard("play"));
  }

  @Test
  void anAnswerUnderAnotherTagIsNotTaken() throws Exception {
    JigClient client =
        client(
            (j, request) -> {
              int tag = Integer.parseInt(tag(request));
              j.say((tag - 1) + STATUS.replace("tick=5", "tick=4"));
              j.say(tag + STATUS);
            });
    assertEquals(5, client.status().tick());
    assertEquals(1, client.health().strayLines());
  }

  @Test
  void aRequestThatArrivedWithoutItsChecksumIsNotTrusted() throws Exception {
    JigClient client =
        client(
            (j, request) ->
                j.say(
                    tag(request)
                        + (request.contains("status")
                            ? STATUS
                            : " ok step=1000 tick=7 checked=no")));
    JigFault fault = fault(() -> client.play(new Wave.Tone(1000, 100)));
    assertInstanceOf(JigFault.DamagedExchange.class, fault);
  }

  @Test
  void aRefusalSaysNumberCauseFieldsAndNextStep() throws Exception {
    JigClient client =
        client((j, request) -> j.say(tag(request) + " no 30 above-limit given=600 high=511"));
    JigFault fault = fault(() -> client.limit(600));
    assertInstanceOf(JigFault.RequestRefused.class, fault);
    assertEquals(
        "The jig refused \"limit\" with error 30, above-limit (given=600 high=511): level plus the"
            + " size of dc is above the limit in force.",
        fault.sentence());
    assertEquals("Lower level or dc or raise limit.", fault.nextStep());
  }

  @Test
  void aLateReadyMeansThatTheSessionIsLost() throws Exception {
    JigClient client =
        client(
            (j, request) -> {
              j.say("! ready cause=brown-out protocol=1 firmware=1.2 board=test");
              j.say(tag(request) + STATUS);
            });
    JigFault fault = fault(client::status);
    assertEquals(new JigFault.SessionLost("brown-out"), fault);
  }

  @Test
  void pushedLinesReachTheListener() throws Exception {
    JigClient client =
        client(
            (j, request) -> {
              j.say("! foot state=down");
              j.say("! something new=1");
              j.say(tag(request) + STATUS);
            });
    client.status();
    assertEquals(List.of("foot", "something"), pushed.stream().map(Pushed::event).toList());
  }

  @Test
  void anAbsurdStatusIsAFaultNotAnException() throws Exception {
    JigClient client =
        client((j, request) -> j.say(tag(request) + STATUS.replace("wave=none", "wave=x")));
    assertInstanceOf(JigFault.AbsurdAnswer.class, fault(client::status));
  }

  @Test
  void aPlayThatAnswersAnotherStepIsRefused() throws Exception {
    JigClient client =
        client(
            (j, request) ->
                j.say(
                    tag(request) + (request.contains("status") ? STATUS : " ok step=999 tick=7")));
    assertInstanceOf(JigFault.AbsurdAnswer.class, fault(() -> client.play(new Wave.Tone(1000, 9))));
  }

  @Test
  void closingStopsTheDriveAndLetsGo() throws Exception {
    JigClient client = client((j, request) -> {});
    long before = jig.heard("stop");
    client.close();
    assertEquals(before + 1, jig.heard("stop"));
    assertTrue(jig.isClosed());
  }

  @Test
  void aPortThatFailsOnWritingIsALostLinkAndIsClosed() throws Exception {
    ByteLink port = mock(ByteLink.class);
    when(port.description()).thenReturn("port");
    doThrow(new LinkLostException("The port is gone.")).when(port).write(any());
    JigFault fault = fault(() -> JigClient.connect(port, JigListener.NONE));
    assertEquals(new JigFault.LinkLost("The port is gone."), fault);
    verify(port).close();
  }

  @Test
  void aPortThatFailsOnReadingIsALostLinkAndIsClosed() throws Exception {
    ByteLink port = mock(ByteLink.class);
    when(port.read(any(), any())).thenThrow(new LinkLostException("The cable is out."));
    JigFault fault = fault(() -> JigClient.connect(port, JigListener.NONE));
    assertEquals(new JigFault.LinkLost("The cable is out."), fault);
    verify(port).close();
  }
}
