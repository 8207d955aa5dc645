package conewise.simulator.world;

import java.io.IOException;
import java.io.InputStream;
import java.io.UncheckedIOException;
import java.nio.charset.StandardCharsets;
import java.util.Locale;

/** The boxes of an invented small workshop, good ones and faulty ones. */
public enum DemoWorld {
  /** Two 10-inch drivers of two coils each in a vented box of 60 litres. */
  HERON,
  /** The same with the right driver reversed. */
  HERON_DRIVER_REVERSED,
  /** The same with one coil of the right driver reversed. */
  HERON_COIL_REVERSED,
  /** The same with a leak. */
  HERON_LEAKY,
  /** The same with a vent cut too short. */
  HERON_VENT_SHORT,
  /** The same with its vent blocked. */
  HERON_VENT_BLOCKED,
  /** Two 12-inch drivers in one sealed space. */
  WREN,
  /** The same with one driver reversed. */
  WREN_DRIVER_REVERSED,
  /** Two drivers, each in a sealed space of its own. */
  PLOVER,
  /** A single driver in a vented box. */
  DIPPER;

  /** The name of the world and of its file. */
  public String worldName() {
    return name().toLowerCase(Locale.ROOT).replace('_', '-');
  }

  /** The text of its file. */
  public String text() {
    String path = "/conewise/worlds/" + worldName() + ".yaml";
    try (InputStream file = DemoWorld.class.getResourceAsStream(path)) {
      if (file == null) {
        throw new IllegalStateException("The resource " + path + " is not in this build.");
      }
      return new String(file.readAllBytes(), StandardCharsets.UTF_8);
    } catch (IOException problem) {
      throw new UncheckedIOException(problem);
    }
  }

  /** The world. */
  public World load() {
    return WorldFile.read(worldName() + ".yaml", text());
  }
}
