package conewise.simulator.jig;

import conewise.protocol.Accepted;
import conewise.protocol.Command;
import conewise.protocol.CommandParser;
import conewise.protocol.FieldProblem;
import conewise.protocol.Fields;
import conewise.protocol.JigError;
import conewise.protocol.JigIdentity;
import conewise.protocol.JigReady;
import conewise.protocol.Line;
import conewise.protocol.LineReader;
import conewise.protocol.Refused;
import conewise.protocol.Request;
import conewise.protocol.RequestParser;
import java.util.Optional;

/** Listens to the port, has requests obeyed, and answers each exactly once. */
final class Conversation {
  /** 17 cells of a memory that takes 3.4 ms to write one, as that of an 8-bit board does. */
  private static final int STORE_MILLISECONDS = 58;

  private final Engine engine;
  private final SerialPort port;
  private final Obedience obedience;
  private final LineReader reader;
  private final CommandParser parser;
  private long damaged;
  private long refused;
  private long writingTicks;

  Conversation(Engine engine, SerialPort port, Keep keep) {
    this.engine = engine;
    this.port = port;
    this.reader = new LineReader(engine.identity.link().requestMax());
    this.parser = new CommandParser(engine.identity);
    this.obedience = new Obedience(engine, this, keep);
  }

  /** What the jig says first after a start: a line end for a line that was cut, then ready. */
  void greet(String cause) {
    port.offerLineEnd();
    JigIdentity.Jig jig = engine.identity.jig();
    engine.outbox.say(
        new JigReady(cause, JigIdentity.PROTOCOL, jig.firmware(), jig.board()).toPushed());
  }

  /** A tick passes: take in bytes, obey what is complete, send what fits. */
  void tick() {
    if (writingTicks > 0) {
      writingTicks--;
      return;
    }
    while (engine.outbox.isEmpty() && writingTicks == 0 && !port.received().isEmpty()) {
      Optional<Line> line = reader.accept(port.received().remove());
      line.ifPresent(this::answer);
    }
    if (writingTicks == 0) {
      engine.outbox.flush();
    }
  }

  private void answer(Line line) {
    RequestParser.Outcome outcome = RequestParser.parse(line);
    if (outcome instanceof RequestParser.Understood understood) {
      obey(understood.request(), understood.checked());
    } else {
      refuse(((RequestParser.Wrong) outcome).reply());
    }
  }

  private void obey(Request request, boolean checked) {
    try {
      Command command = parser.parse(request);
      Accepted reply = obedience.obey(request.tag(), command);
      engine.breakSilence();
      engine.outbox.say(new Accepted(reply.tag(), sign(reply.fields(), checked)));
      if (command instanceof Command.RecordFrames) {
        engine.outbox.openForBlocks();
      }
    } catch (RefusalException refusal) {
      refuse(new Refused(request.tag(), refusal.error(), sign(refusal.details(), checked)));
    } catch (FieldProblem problem) {
      refuse(new Refused(request.tag(), problem.error(), sign(problem.details(), checked)));
    }
  }

  private static Fields sign(Fields fields, boolean checked) {
    return checked ? fields : fields.with("checked", "no");
  }

  private void refuse(Refused reply) {
    if (isDamage(reply.error())) {
      damaged++;
    } else {
      refused++;
    }
    engine.halt(Engine.Cause.REFUSED);
    engine.outbox.say(reply);
  }

  private static boolean isDamage(JigError error) {
    return error == JigError.LINE_DAMAGED
        || error == JigError.LINE_TOO_LONG
        || error == JigError.LINE_NOT_TEXT;
  }

  /** The jig writes its memory; meanwhile it samples but neither listens nor speaks. */
  void writeMemory() {
    long ticksPerSecond = engine.identity.clock().clockHz() / engine.identity.clock().tickCycles();
    writingTicks = ticksPerSecond * STORE_MILLISECONDS / 1000;
  }

  long damaged() {
    return damaged;
  }

  long refused() {
    return refused;
  }

  /** Whether nothing waits to be said or obeyed. */
  boolean quiet() {
    return engine.outbox.isEmpty() && writingTicks == 0;
  }
}
