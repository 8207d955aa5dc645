package conewise.jig.sweep;

import conewise.jig.client.JigClient;
import conewise.jig.client.JigFault;
import conewise.jig.client.JigFaultException;
import conewise.jig.client.RecordOrder;
import conewise.jig.client.RecordProgress;
import conewise.jig.client.Recording;
import conewise.jig.client.Wave;
import java.util.Optional;
import java.util.function.Supplier;

/**
 * Takes a record of a wave, and takes it again a bounded number of times when the link spoilt it.
 * Nothing is ever bridged: a record is whole or is not used.
 */
final class RecordTaker {

  /** How often one record is tried. */
  static final int ATTEMPTS = 3;

  private final JigClient client;
  private final Tracker tracker;
  private Optional<byte[]> loaded = Optional.empty();
  private int repeats;

  RecordTaker(JigClient client, Tracker tracker) {
    this.client = client;
    this.tracker = tracker;
  }

  /** How many records had to be taken again. */
  int repeats() {
    return repeats;
  }

  /** Counts repeats that were made elsewhere. */
  void count(int more) {
    repeats += more;
  }

  /** Records without drive. */
  Recording idle(RecordOrder order) throws JigFaultException {
    return take(Optional.empty(), Optional.empty(), order, tracker::record);
  }

  /** Records while a wave plays, which afterwards stops. */
  Recording of(Wave wave, RecordOrder order) throws JigFaultException {
    return take(Optional.of(wave), Optional.empty(), order, tracker::record);
  }

  /** Records while a wave of this table plays, which afterwards stops. */
  Recording of(Wave.Table wave, byte[] table, RecordOrder order) throws JigFaultException {
    return of(wave, table, order, tracker::record);
  }

  /**
   * The same, followed.
   *
   * @param progress gives one that follows each record anew
   */
  Recording of(Wave.Table wave, byte[] table, RecordOrder order, Supplier<RecordProgress> progress)
      throws JigFaultException {
    return take(Optional.of(wave), Optional.of(table), order, progress);
  }

  private Recording take(
      Optional<Wave> wave,
      Optional<byte[]> table,
      RecordOrder order,
      Supplier<RecordProgress> progress)
      throws JigFaultException {
    for (int attempt = 1; ; attempt++) {
      try {
        return once(wave, table, order, progress.get());
      } catch (JigFaultException failed) {
        loaded = Optional.empty();
        if (!failed.fault().isPassing() || attempt == ATTEMPTS) {
          throw failed;
        }
        repeats++;
      }
    }
  }

  private Recording once(
      Optional<Wave> wave, Optional<byte[]> table, RecordOrder order, RecordProgress progress)
      throws JigFaultException {
    if (tracker.wantsToStop()) {
      throw new JigFaultException(new JigFault.Cancelled());
    }
    client.stop();
    if (table.isPresent() && !loaded.equals(table)) {
      client.load(table.get());
      loaded = table;
    }
    if (wave.isPresent()) {
      client.play(wave.get());
    }
    Recording recording = client.record(order, progress);
    client.stop();
    return recording;
  }
}
