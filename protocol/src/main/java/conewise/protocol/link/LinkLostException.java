package conewise.protocol.link;

import java.io.IOException;

/** The other end of a link is gone: unplugged, closed, or it takes no more bytes. */
public final class LinkLostException extends IOException {

  /**
   * @param message one sentence: which link, what happened
   */
  public LinkLostException(String message) {
    super(message);
  }

  /**
   * @param message one sentence: which link, what happened
   * @param cause what the system said
   */
  public LinkLostException(String message, Throwable cause) {
    super(message, cause);
  }
}
