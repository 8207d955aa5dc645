package conewise.simulator.jig;

import java.util.Arrays;

/** Bytes in the order in which they came, as many as a limit allows. */
final class ByteQueue {
  private final int limit;
  private byte[] ring;
  private int first;
  private int count;

  /** A queue of at most {@code limit} bytes. */
  ByteQueue(int limit) {
    this.limit = limit;
    this.ring = new byte[Math.min(limit, 1024)];
  }

  /** Adds a byte at the end; false if the queue is full and the byte is lost. */
  boolean add(byte octet) {
    if (count == limit) {
      return false;
    }
    if (count == ring.length) {
      grow();
    }
    ring[(first + count) % ring.length] = octet;
    count++;
    return true;
  }

  private void grow() {
    byte[] larger = new byte[(int) Math.min(limit, 2L * ring.length)];
    int tail = Math.min(count, ring.length - first);
    System.arraycopy(ring, first, larger, 0, tail);
    System.arraycopy(ring, 0, larger, tail, count - tail);
    ring = larger;
    first = 0;
  }

  /** Takes the first byte; the queue must not be empty. */
  byte remove() {
    byte octet = ring[first];
    first = (first + 1) % ring.length;
    count--;
    return octet;
  }

  int size() {
    return count;
  }

  int room() {
    return limit - count;
  }

  boolean isEmpty() {
    return count == 0;
  }

  void clear() {
    count = 0;
  }

  /** Moves up to {@code buffer.length} bytes out; returns how many. */
  int drainTo(byte[] buffer) {
    int moved = Math.min(buffer.length, count);
    for (int i = 0; i < moved; i++) {
      buffer[i] = remove();
    }
    return moved;
  }

  @Override
  public String toString() {
    return "ByteQueue of " + count + " bytes " + Arrays.toString(ring);
  }
}
