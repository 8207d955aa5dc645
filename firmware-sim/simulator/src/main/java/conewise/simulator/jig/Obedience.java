package conewise.simulator.jig;

import conewise.protocol.Accepted;
import conewise.protocol.Command;
import conewise.protocol.Detail;
import conewise.protocol.Fields;
import conewise.protocol.JigError;
import conewise.protocol.JigIdentity;
import conewise.protocol.JigStatus;
import conewise.protocol.LinkBudget;
import conewise.protocol.PlayStart;
import conewise.protocol.RecordStart;
import conewise.protocol.WavePoints;
import java.util.List;
import java.util.Locale;

/**
 * Does what a command asks, or refuses because of the jig's state and changes nothing. What stands
 * against a command is looked at in the order of the error numbers.
 */
final class Obedience {
  private static final WaveShape SINE = new SineShape();

  private final Engine engine;
  private final Conversation conversation;
  private final Keep keep;

  Obedience(Engine engine, Conversation conversation, Keep keep) {
    this.engine = engine;
    this.conversation = conversation;
    this.keep = keep;
  }

  /** Gives the {@code ok} to send; details before it are said already. */
  Accepted obey(int tag, Command command) throws RefusalException {
    if (command instanceof Command.Play play) {
      return play(tag, play);
    } else if (command instanceof Command.RecordFrames frames) {
      return record(tag, frames);
    } else if (command instanceof Command.Identify) {
      return identify(tag);
    } else if (command instanceof Command.Status) {
      return status().toReply(tag);
    }
    return new Accepted(tag, change(command));
  }

  /** Commands whose answer is a field at most. */
  private Fields change(Command command) throws RefusalException {
    if (command instanceof Command.Load load) {
      return load(load);
    } else if (command instanceof Command.Limit limit) {
      return limit(limit);
    } else if (command instanceof Command.Lamp lamp) {
      requireFitted(engine.identity.fitted().lamps());
      engine.panel.clearHaltSign();
      engine.panel.lamp(lamp.name(), lamp.state());
    } else if (command instanceof Command.Buzz buzz) {
      requireFitted(engine.identity.fitted().buzzer());
      engine.panel.buzz(buzz.milliseconds());
    } else if (command instanceof Command.Store store) {
      store(store);
    } else {
      engine.stop();
    }
    return Fields.NONE;
  }

  private static void requireFitted(boolean fitted) throws RefusalException {
    if (!fitted) {
      throw new RefusalException(JigError.NOT_FITTED);
    }
  }

  private Fields load(Command.Load load) throws RefusalException {
    if (engine.player.kind() == WavePlayer.Kind.TABLE) {
      throw new RefusalException(JigError.BUSY);
    }
    byte[] points = load.points();
    System.arraycopy(points, 0, engine.table, load.at(), points.length);
    return Fields.NONE.with("points", points.length);
  }

  private Fields limit(Command.Limit limit) throws RefusalException {
    if (engine.player.peak() > limit.peak()) {
      throw new RefusalException(JigError.BUSY);
    }
    engine.limit(limit.peak());
    return Fields.NONE.with("peak", limit.peak());
  }

  private Accepted play(int tag, Command.Play play) throws RefusalException {
    if (play.peak() > engine.limit()) {
      throw new RefusalException(
          JigError.ABOVE_LIMIT,
          Fields.NONE.with("given", play.peak()).with("high", engine.limit()));
    }
    if (play instanceof Command.PlayTable table) {
      checkTable(table);
    }
    engine.beforeStart();
    int step = (int) play.step();
    if (play instanceof Command.PlayTable table) {
      WaveShape shape = new TableShape(engine.table, table.points());
      engine.player.start(WavePlayer.Kind.TABLE, shape, step, play.level(), play.dc());
    } else if (play instanceof Command.PlayDc) {
      engine.player.startDc(play.dc());
    } else {
      engine.player.start(WavePlayer.Kind.TONE, SINE, step, play.level(), play.dc());
    }
    return new PlayStart(play.step(), engine.tickNumberIn(0)).toReply(tag);
  }

  private void checkTable(Command.PlayTable table) throws RefusalException {
    int loaded = WavePoints.checksum(engine.table, table.points());
    if (table.crc().orElse(loaded) != loaded) {
      throw new RefusalException(JigError.TABLE_DIFFERS);
    }
  }

  private Accepted record(int tag, Command.RecordFrames frames) throws RefusalException {
    if (engine.recorder.runs()) {
      throw new RefusalException(JigError.BUSY);
    }
    LinkBudget budget = LinkBudget.of(engine.identity, frames.shape());
    if (!budget.fits()) {
      throw new RefusalException(
          JigError.LINK_TOO_SLOW,
          Fields.NONE.with("needs", budget.needs()).with("has", budget.has()));
    }
    engine.beforeStart();
    engine.startRecord(frames.shape(), frames.frames(), frames.skip());
    int interval = frames.shape().intervalTicks();
    // The first conversion ends the tick that comes next.
    return new RecordStart(
            engine.recorder.id(),
            engine.tickNumberIn(1 + (long) frames.skip() * interval),
            interval,
            frames.shape().blockFrames(),
            frames.shape().digits())
        .toReply(tag);
  }

  private Accepted identify(int tag) {
    JigIdentity stated = engine.identity;
    JigIdentity.Jig jig =
        new JigIdentity.Jig(
            stated.jig().firmware(), stated.jig().board(), keep.serial(), keep.calibration());
    JigIdentity now =
        new JigIdentity(
            jig,
            stated.clock(),
            stated.converter(),
            stated.channels(),
            stated.drive(),
            stated.wave(),
            stated.record(),
            stated.link(),
            stated.fitted());
    List<Detail> details = now.toDetails(tag);
    details.forEach(engine.outbox::say);
    return new Accepted(tag, Fields.NONE.with("lines", details.size()));
  }

  private void store(Command.Store store) throws RefusalException {
    if (engine.running()) {
      throw new RefusalException(JigError.BUSY);
    }
    conversation.writeMemory();
    if (!keep.store(store.key(), store.id())) {
      throw new RefusalException(JigError.STORE_FAILED);
    }
  }

  private JigStatus status() {
    return new JigStatus(
        engine.tickNumberIn(0),
        engine.player.kind().name().toLowerCase(Locale.ROOT),
        engine.recorder.runs() ? engine.recorder.id() : 0,
        engine.foot.down(),
        engine.watch.clippedFrames(),
        conversation.damaged(),
        conversation.refused(),
        engine.overruns(),
        engine.halts());
  }
}
