package conewise.simulator.world;

/** A world file cannot be read; the message is one sentence for a person: what, where, and why. */
public final class WorldFileException extends RuntimeException {
  private static final long serialVersionUID = 1;

  WorldFileException(String message, Throwable cause) {
    super(message, cause);
  }
}
