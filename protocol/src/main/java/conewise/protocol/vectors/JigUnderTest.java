package conewise.protocol.vectors;

import conewise.protocol.Line;
import java.util.Optional;

/**
 * A jig that dialogues are run against: just started, its {@code ready} line already read, its
 * limits as after a reset.
 */
public interface JigUnderTest {
  /** Sends bytes, at once. */
  void send(byte[] bytes);

  /** The next line of the jig; empty if none came within this time of the jig. */
  Optional<Line> nextLine(int milliseconds);

  /**
   * Lets this time of the jig pass without sending; lines that come meanwhile are kept for {@link
   * #nextLine}.
   */
  void pause(int milliseconds);
}
