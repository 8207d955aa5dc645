package conewise.station.command;

import java.io.BufferedReader;
import java.io.IOException;
import java.io.InputStreamReader;
import java.io.UncheckedIOException;
import java.nio.charset.Charset;
import java.util.function.BooleanSupplier;

/** Waits for a person. */
final class Keyboard {
  private Keyboard() {}

  /** Waits for Enter each time; false when nobody will press it any more. */
  static BooleanSupplier enter() {
    BufferedReader reader =
        new BufferedReader(new InputStreamReader(System.in, Charset.defaultCharset()));
    return () -> {
      try {
        return reader.readLine() != null;
      } catch (IOException e) {
        throw new UncheckedIOException("the keyboard could not be read", e);
      }
    };
  }
}
