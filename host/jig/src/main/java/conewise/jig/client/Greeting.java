package conewise.jig.client;

import conewise.protocol.Accepted;
import conewise.protocol.Detail;
import conewise.protocol.Fields;
import conewise.protocol.IdentityProblem;
import conewise.protocol.JigIdentity;
import conewise.protocol.JigReady;
import conewise.protocol.Message;
import conewise.protocol.Pushed;
import conewise.protocol.Refused;
import conewise.protocol.Request;
import conewise.protocol.Requests;
import java.time.Duration;
import java.util.ArrayList;
import java.util.List;
import java.util.Optional;

/**
 * Finds out whether a jig is on a link. Opening a port resets many boards, so {@code identify} is
 * repeated, and at once when a {@code ready} is heard.
 */
final class Greeting {

  /** The protocol asks for at least 3 s; boards with a slow boot loader take up to 2 s of them. */
  static final Duration LIMIT = Duration.ofSeconds(5);

  /** How long one {@code identify} is waited for after its last line. */
  static final Duration ATTEMPT = Duration.ofMillis(700);

  /** A babbler may provoke refusals at once, over and over; more attempts than this are no use. */
  private static final int ATTEMPTS_MAX = 40;

  private final Conversation conversation;
  private int attempts;

  Greeting(Conversation conversation) {
    this.conversation = conversation;
  }

  int attempts() {
    return attempts;
  }

  JigIdentity meet() throws JigFaultException {
    long end = conversation.now() + LIMIT.toNanos();
    // Ends whatever half line the jig may have heard; an empty line means nothing to it.
    conversation.send("\n");
    while (conversation.now() - end < 0 && attempts < ATTEMPTS_MAX) {
      attempts++;
      Optional<JigIdentity> identity = attempt(end);
      if (identity.isPresent()) {
        return identity.get();
      }
    }
    throw new JigFaultException(unmet());
  }

  private Optional<JigIdentity> attempt(long end) throws JigFaultException {
    Request request = Requests.identify().withTag(attempts);
    conversation.send(request);
    List<Detail> details = new ArrayList<>();
    long patience = conversation.now() + ATTEMPT.toNanos();
    while (true) {
      Optional<Message> heard = conversation.next(Math.min(patience, end));
      if (heard.isEmpty()) {
        return Optional.empty();
      }
      Message message = heard.get();
      if (message instanceof Pushed pushed && pushed.event().equals(JigReady.EVENT)) {
        requireVersion(pushed.fields());
        return Optional.empty();
      }
      if (message instanceof Refused refused) {
        requireOurFault(refused, request.tag());
        return Optional.empty();
      }
      if (message instanceof Detail detail && detail.tag() == request.tag()) {
        details.add(detail);
        patience = conversation.now() + ATTEMPT.toNanos();
      }
      if (message instanceof Accepted accepted && accepted.tag() == request.tag()) {
        return identity(details, accepted);
      }
    }
  }

  private Optional<JigIdentity> identity(List<Detail> details, Accepted accepted)
      throws JigFaultException {
    for (Detail detail : details) {
      if (detail.topic().equals("jig")) {
        requireVersion(detail.fields());
      }
    }
    if (!accepted.checked()
        || !accepted.fields().has("lines")
        || !accepted.fields().text("lines").equals(Integer.toString(details.size()))) {
      return Optional.empty();
    }
    try {
      return Optional.of(JigIdentity.fromDetails(details));
    } catch (IdentityProblem problem) {
      throw new JigFaultException(
          new JigFault.AbsurdAnswer("identify", problem.getMessage()), problem);
    }
  }

  private void requireVersion(Fields fields) throws JigFaultException {
    String theirs = fields.has("protocol") ? fields.text("protocol") : "none";
    if (!theirs.equals(Integer.toString(JigIdentity.PROTOCOL))) {
      throw new JigFaultException(new JigFault.WrongVersion(conversation.linkName(), theirs));
    }
  }

  /** A refusal under tag 0 is of a line that came damaged; any other is meant. */
  private static void requireOurFault(Refused refused, int tag) throws JigFaultException {
    if (refused.tag() == tag) {
      throw new JigFaultException(
          new JigFault.RequestRefused("identify", refused.error(), refused.fields()));
    }
  }

  private JigFault unmet() {
    if (conversation.bytesHeard() == 0) {
      return new JigFault.NoAnswer(conversation.linkName(), "identify", LIMIT.toMillis() / 1000.0);
    }
    if (conversation.soundLines() == 0) {
      return new JigFault.ForeignDevice(conversation.linkName(), conversation.bytesHeard());
    }
    return new JigFault.DamagedExchange(
        "identify",
        conversation.unusableLines()
            + " lines came damaged and no answer came whole within "
            + LIMIT.toSeconds()
            + " s.");
  }
}
