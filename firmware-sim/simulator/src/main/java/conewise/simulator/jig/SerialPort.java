package conewise.simulator.jig;

import java.nio.charset.StandardCharsets;

/**
 * The jig's serial port: bytes leave from a ring of {@value #TRANSMIT_BYTES} bytes and come into
 * one of {@value #RECEIVE_BYTES}, ten bits a byte each way at the rate that the link carries. What
 * comes into a full ring is lost, as on a board.
 */
final class SerialPort {
  /** Bytes of the ring that the port sends from: room for one block and one short line. */
  static final int TRANSMIT_BYTES = 256;

  /** Bytes that wait here while the jig is busy sending an answer. */
  static final int RECEIVE_BYTES = 64;

  private static final int BITS_PER_BYTE = 10;

  /** Far beyond what a host leaves unread: 64 MiB, some twenty minutes of raw record. */
  private static final int OUTSIDE_BYTES = 1 << 26;

  private final ByteQueue transmit = new ByteQueue(TRANSMIT_BYTES);
  private final ByteQueue receive = new ByteQueue(RECEIVE_BYTES);
  private final ByteQueue onTheWay = new ByteQueue(OUTSIDE_BYTES);
  private final ByteQueue left = new ByteQueue(OUTSIDE_BYTES);
  private final long creditPerTick;
  private final long creditPerByte;
  private long sendCredit;
  private long receiveCredit;
  private long sentBytes;

  /** A byte costs clockHz x 10 units of credit, and a tick brings tickCycles x baud of them. */
  SerialPort(long clockHz, int tickCycles, int baud) {
    creditPerByte = clockHz * BITS_PER_BYTE;
    creditPerTick = (long) tickCycles * baud;
  }

  /** One tick passes on both lines. An idle line saves nothing up. */
  void tick() {
    if (transmit.isEmpty()) {
      sendCredit = 0;
    } else {
      sendCredit = move(transmit, left, sendCredit + creditPerTick);
    }
    if (onTheWay.isEmpty()) {
      receiveCredit = 0;
    } else {
      receiveCredit = arrive(receiveCredit + creditPerTick);
    }
  }

  private long move(ByteQueue from, ByteQueue to, long credit) {
    long rest = credit;
    while (rest >= creditPerByte && !from.isEmpty()) {
      to.add(from.remove());
      sentBytes++;
      rest -= creditPerByte;
    }
    return rest;
  }

  private long arrive(long credit) {
    long rest = credit;
    while (rest >= creditPerByte && !onTheWay.isEmpty()) {
      receive.add(onTheWay.remove());
      rest -= creditPerByte;
    }
    return rest;
  }

  /** Puts a line and its end into the ring if all of it fits; false if not. */
  boolean offer(String line) {
    if (transmit.room() < line.length() + 1) {
      return false;
    }
    for (byte octet : line.getBytes(StandardCharsets.US_ASCII)) {
      transmit.add(octet);
    }
    transmit.add((byte) '\n');
    return true;
  }

  /** Ends whatever line a reset may have cut, so that the next one is read whole. */
  void offerLineEnd() {
    transmit.add((byte) '\n');
  }

  /** What the host puts on its end of the wire. */
  void hear(byte octet) {
    onTheWay.add(octet);
  }

  ByteQueue received() {
    return receive;
  }

  /** What has left the jig and waits for the host. */
  ByteQueue left() {
    return left;
  }

  /** Bytes that have left since the jig was made. */
  long sentBytes() {
    return sentBytes;
  }

  /** Whether no byte is under way in either direction. */
  boolean quiet() {
    return transmit.isEmpty() && receive.isEmpty() && onTheWay.isEmpty();
  }

  /** A reset: both rings are empty; a byte half sent is lost. */
  void reset() {
    transmit.clear();
    receive.clear();
    onTheWay.clear();
  }
}
