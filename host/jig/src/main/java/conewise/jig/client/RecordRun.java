package conewise.jig.client;

import conewise.protocol.Block;
import conewise.protocol.Fields;
import conewise.protocol.Message;
import conewise.protocol.Pushed;
import conewise.protocol.RecordEnd;
import conewise.protocol.RecordStart;
import conewise.protocol.Refused;
import conewise.protocol.Requests;
import java.time.Duration;
import java.util.Optional;

/** Follows one record from its start to its end line, and keeps the jig from falling silent. */
final class RecordRun {

  /** How often progress is told, and a wish to stop is heard, while no block comes. */
  private static final long LOOK_UP_NANOS = Duration.ofMillis(100).toNanos();

  /** What a block may come late by. */
  private static final long LATE_NANOS = Duration.ofMillis(600).toNanos();

  /** Two requests in each silence limit, so that one may be lost. */
  private static final double KEEP_ALIVE_SHARE = 0.4;

  private final JigClient client;
  private final Conversation conversation;
  private final RecordOrder order;
  private final RecordStart start;
  private final RecordAssembler assembler;
  private final long keepAliveNanos;
  private long nextKeepAlive;
  private long blockDue;

  /**
   * Follows a record that has started.
   *
   * @param phaseZeroTick the tick that instants are counted from
   */
  RecordRun(
      JigClient client,
      Conversation conversation,
      RecordOrder order,
      RecordStart start,
      long phaseZeroTick) {
    this.client = client;
    this.conversation = conversation;
    this.order = order;
    this.start = start;
    this.assembler = new RecordAssembler(client.identity(), order, start, phaseZeroTick);
    double silenceNanos = client.identity().link().silenceMilliseconds() * 1e6;
    this.keepAliveNanos = (long) (KEEP_ALIVE_SHARE * silenceNanos);
  }

  Recording follow(RecordProgress progress) throws JigFaultException {
    nextKeepAlive = conversation.now() + keepAliveNanos;
    blockDue = conversation.now() + framesNanos(order.skip()) + blockPatienceNanos();
    while (true) {
      requireWanted(progress);
      requireNotLate();
      keepAlive();
      Optional<Message> heard = conversation.next(nextLook());
      if (heard.isPresent() && heard.get() instanceof Block block) {
        take(block, progress);
      } else if (heard.isPresent() && heard.get() instanceof Refused refused) {
        throw refusal(refused);
      } else if (heard.isPresent() && heard.get() instanceof Pushed pushed && concerns(pushed)) {
        return end(pushed);
      }
    }
  }

  private long nextLook() {
    long look = Math.min(conversation.now() + LOOK_UP_NANOS, nextKeepAlive);
    return Math.min(look, blockDue);
  }

  private void take(Block block, RecordProgress progress) throws JigFaultException {
    int before = assembler.frames();
    assembler.take(block);
    if (assembler.frames() > before) {
      progress.came(assembler.since(before));
      blockDue = conversation.now() + blockPatienceNanos();
    }
  }

  private Recording end(Pushed pushed) throws JigFaultException {
    if (pushed.event().equals("overrun")) {
      throw new JigFaultException(new JigFault.Overrun(start.recordId()));
    }
    if (pushed.event().equals("halted")) {
      throw halted(pushed);
    }
    RecordEnd end = JigClient.read("record", pushed, RecordEnd::from);
    if (!end.complete()) {
      throw cutShort();
    }
    return assembler.finish(end);
  }

  /** After an end that was not complete the jig says why: halted or overrun. */
  private JigFaultException cutShort() throws JigFaultException {
    long deadline = conversation.now() + client.answerLimit().toNanos();
    while (true) {
      Optional<Message> heard = conversation.next(deadline);
      if (heard.isEmpty()) {
        return new JigFaultException(new JigFault.Halted("unknown"));
      }
      if (heard.get() instanceof Pushed pushed && pushed.event().equals("halted")) {
        return halted(pushed);
      }
      if (heard.get() instanceof Pushed pushed && pushed.event().equals("overrun")) {
        return new JigFaultException(new JigFault.Overrun(start.recordId()));
      }
    }
  }

  private static JigFaultException halted(Pushed pushed) {
    Fields fields = pushed.fields();
    return new JigFaultException(
        new JigFault.Halted(fields.has("cause") ? fields.text("cause") : "unknown"));
  }

  /** Only a request to keep the jig awake can be refused here, and a refusal halts it. */
  private static JigFaultException refusal(Refused refused) {
    return new JigFaultException(
        new JigFault.DamagedExchange(
            "status", "the jig refused it with error " + refused.error().number() + "."));
  }

  private boolean concerns(Pushed pushed) {
    return switch (pushed.event()) {
      case "halted" -> true;
      case RecordEnd.EVENT, "overrun" ->
          pushed.fields().has("record")
              && pushed.fields().text("record").equals(Integer.toString(start.recordId()));
      default -> false;
    };
  }

  private void keepAlive() throws JigFaultException {
    if (conversation.now() - nextKeepAlive >= 0) {
      conversation.send(client.tagged(Requests.status()));
      nextKeepAlive = conversation.now() + keepAliveNanos;
    }
  }

  private void requireWanted(RecordProgress progress) throws JigFaultException {
    if (!progress.goOn(assembler.frames(), order.frames())) {
      throw new JigFaultException(new JigFault.Cancelled());
    }
  }

  private void requireNotLate() throws JigFaultException {
    if (conversation.now() - blockDue < 0) {
      return;
    }
    String what = assembler.isFull() ? "the record's end did not come in time." : "it is overdue.";
    int block = assembler.frames() / order.shape().blockFrames();
    throw new JigFaultException(new JigFault.DamagedBlock(start.recordId(), block, what));
  }

  private long blockPatienceNanos() {
    return framesNanos(order.shape().blockFrames()) + LATE_NANOS;
  }

  private long framesNanos(long frames) {
    return (long) (frames * start.intervalTicks() * client.identity().tickSeconds() * 1e9);
  }
}
