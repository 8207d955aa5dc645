package conewise.station.calibrating;

import conewise.station.answer.ProgressLine;
import conewise.station.answer.Screen;
import java.io.OutputStream;
import java.io.PrintStream;
import java.nio.charset.StandardCharsets;

/** Progress that nobody reads. */
final class StillScreen {
  private StillScreen() {}

  static ProgressLine progress() {
    PrintStream nowhere =
        new PrintStream(OutputStream.nullOutputStream(), true, StandardCharsets.UTF_8);
    return ProgressLine.silent(new Screen(nowhere, nowhere, true, false, false));
  }
}
