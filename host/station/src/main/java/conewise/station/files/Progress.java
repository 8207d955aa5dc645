package conewise.station.files;

/** Hears how far a long reading has come. */
@FunctionalInterface
public interface Progress {

  /** Nobody listens. */
  Progress UNHEARD = fraction -> {};

  /**
   * Called on the reading thread, a few times a second at most for a large file and perhaps never
   * for a small one.
   *
   * @param fraction the part of the file that has been read, 0 to 1, never falling
   */
  void at(double fraction);
}
