package conewise.jig.workbench;

import conewise.protocol.link.ByteLink;
import conewise.protocol.link.LinkLostException;
import java.time.Duration;

/** A link that counts what passes and notices when it is closed. */
public final class CountingLink implements ByteLink {

  private final ByteLink inner;
  private long bytesRead;
  private long bytesWritten;
  private boolean closed;

  public CountingLink(ByteLink inner) {
    this.inner = inner;
  }

  public long bytesRead() {
    return bytesRead;
  }

  public long bytesWritten() {
    return bytesWritten;
  }

  public boolean isClosed() {
    return closed;
  }

  @Override
  public void write(byte[] bytes) throws LinkLostException {
    bytesWritten += bytes.length;
    inner.write(bytes);
  }

  @Override
  public int read(byte[] buffer, Duration timeout) throws LinkLostException {
    int count = inner.read(buffer, timeout);
    bytesRead += count;
    return count;
  }

  @Override
  public long nanoTime() {
    return inner.nanoTime();
  }

  @Override
  public String description() {
    return inner.description();
  }

  @Override
  public void close() {
    closed = true;
    inner.close();
  }
}
