package conewise.simulator.link;

import conewise.simulator.jig.VirtualJig;
import java.io.IOException;
import java.io.InputStream;
import java.io.OutputStream;
import java.util.Arrays;
import java.util.concurrent.ArrayBlockingQueue;
import java.util.concurrent.BlockingQueue;
import java.util.concurrent.TimeUnit;

/** Threads that do the blocking reads and writes of a {@link StreamServer}. */
final class StreamPump {
  private static final int CHUNK_BYTES = 4096;
  private static final int CHUNKS = 64;
  private static final int CLOSE_MILLISECONDS = 2000;

  /** Stands for the end of a stream. */
  private static final byte[] END = {};

  private StreamPump() {}

  private static Thread start(String name, Runnable work) {
    Thread thread = new Thread(work, name);
    thread.setDaemon(true);
    thread.start();
    return thread;
  }

  /** Reads ahead from a stream. Its thread ends with the stream. */
  static final class Input {
    private final BlockingQueue<byte[]> chunks = new ArrayBlockingQueue<>(CHUNKS);

    Input(InputStream in) {
      start("virtual-jig-input", () -> read(in));
    }

    private void read(InputStream in) {
      byte[] buffer = new byte[CHUNK_BYTES];
      try {
        for (int count = in.read(buffer); count >= 0; count = in.read(buffer)) {
          if (count > 0) {
            chunks.put(Arrays.copyOf(buffer, count));
          }
        }
        chunks.put(END);
      } catch (IOException e) {
        // A stream that breaks and one that ends are the same to a jig: nobody speaks any more.
        endAfter(e);
      } catch (InterruptedException e) {
        Thread.currentThread().interrupt();
      }
    }

    private void endAfter(IOException broken) {
      try {
        chunks.put(END);
      } catch (InterruptedException e) {
        e.addSuppressed(broken);
        Thread.currentThread().interrupt();
      }
    }

    /**
     * Gives the jig what has come, waiting at most so long for the first of it; false when the
     * stream has ended.
     */
    boolean pour(VirtualJig jig, long milliseconds) throws InterruptedException {
      byte[] chunk = chunks.poll(milliseconds, TimeUnit.MILLISECONDS);
      while (chunk != null && chunk.length > 0) {
        for (byte octet : chunk) {
          jig.hear(octet);
        }
        chunk = chunks.poll();
      }
      return chunk == null;
    }
  }

  /** Writes behind to a stream, flushing whenever nothing more waits. */
  static final class Output implements AutoCloseable {
    private final BlockingQueue<byte[]> chunks = new ArrayBlockingQueue<>(CHUNKS);
    private final byte[] buffer = new byte[CHUNK_BYTES];
    private final Thread thread;
    private volatile State state = State.OPEN;

    /** How the other side does. */
    enum State {
      OPEN,
      GONE,
      STUCK
    }

    Output(OutputStream out) {
      thread = start("virtual-jig-output", () -> write(out));
    }

    private void write(OutputStream out) {
      try {
        for (byte[] chunk = chunks.take(); chunk.length > 0; chunk = chunks.take()) {
          out.write(chunk);
          if (chunks.isEmpty()) {
            out.flush();
          }
        }
        out.flush();
      } catch (IOException e) {
        state = State.GONE;
      } catch (InterruptedException e) {
        Thread.currentThread().interrupt();
      }
    }

    State state() {
      return state;
    }

    /** Takes what has left the jig; false when the other side is gone or takes nothing. */
    boolean take(VirtualJig jig) throws InterruptedException {
      while (jig.sentWaiting() > 0 && state == State.OPEN) {
        int count = jig.takeSent(buffer);
        put(Arrays.copyOf(buffer, count));
      }
      return state == State.OPEN;
    }

    private void put(byte[] chunk) throws InterruptedException {
      long limit = System.nanoTime() + StreamServer.STUCK_AFTER.toNanos();
      while (!chunks.offer(chunk, 50, TimeUnit.MILLISECONDS) && state == State.OPEN) {
        if (System.nanoTime() > limit) {
          state = State.STUCK;
        }
      }
    }

    /** Waits at most two seconds for what was taken to be written. */
    @Override
    public void close() {
      boolean interrupted = Thread.interrupted();
      try {
        if (chunks.offer(END, CLOSE_MILLISECONDS, TimeUnit.MILLISECONDS)) {
          thread.join(CLOSE_MILLISECONDS);
        }
      } catch (InterruptedException e) {
        interrupted = true;
      }
      thread.interrupt();
      if (interrupted) {
        Thread.currentThread().interrupt();
      }
    }
  }
}
