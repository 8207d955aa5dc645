package conewise.simulator.jig;

import conewise.protocol.Block;
import conewise.protocol.Message;
import java.util.ArrayDeque;
import java.util.Optional;
import java.util.Queue;

/**
 * What the jig has still to say. Lines leave in the order in which they were said; a finished block
 * of the record goes in front of them, but never in front of what was said when the record began.
 *
 * <p>The queue stands for flags and counters of a board, which makes each line when there is room
 * for it; it holds one answer and a handful of pushed lines at most, since no request is looked at
 * before it is empty.
 */
final class Outbox {
  private final SerialPort port;
  private final Queue<Message> lines = new ArrayDeque<>();
  private int linesBeforeBlocks;
  private Block waiting;

  Outbox(SerialPort port) {
    this.port = port;
  }

  void say(Message message) {
    lines.add(message);
  }

  /** From here on blocks may come, after all that was said up to now. */
  void openForBlocks() {
    linesBeforeBlocks = lines.size();
  }

  /** Takes a finished block; false if the one before still waits, and then nothing is taken. */
  boolean offerBlock(Block block) {
    if (waiting != null) {
      return false;
    }
    waiting = block;
    return true;
  }

  /** The record is over: its last block joins the queue, so that what is said now follows it. */
  void closeForBlocks() {
    if (waiting != null) {
      lines.add(waiting);
      waiting = null;
    }
  }

  /** Moves what fits into the port. */
  void flush() {
    while (nextLeft()) {
      // One line after another, until the port has no room for the next.
    }
  }

  private boolean nextLeft() {
    if (waiting != null && linesBeforeBlocks == 0) {
      if (!port.offer(waiting.toLine())) {
        return false;
      }
      waiting = null;
      return true;
    }
    Optional<Message> next = Optional.ofNullable(lines.peek());
    if (next.isEmpty() || !port.offer(next.get().toLine())) {
      return false;
    }
    lines.remove();
    linesBeforeBlocks = Math.max(0, linesBeforeBlocks - 1);
    return true;
  }

  boolean hasBlockWaiting() {
    return waiting != null;
  }

  /** Whether nothing is left to say but perhaps a block. */
  boolean isEmpty() {
    return lines.isEmpty();
  }
}
