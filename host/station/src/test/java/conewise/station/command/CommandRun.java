package conewise.station.command;

import conewise.station.answer.Screen;
import java.io.ByteArrayOutputStream;
import java.io.PrintStream;
import java.nio.charset.StandardCharsets;
import java.util.function.Consumer;

/**
 * One command line, run in this process.
 *
 * @param exitCode what it handed back
 * @param out what it answered
 * @param err progress and errors
 */
public record CommandRun(int exitCode, String out, String err) {
  public static CommandRun of(String... arguments) {
    return run(false, new ByteArrayOutputStream(), arguments);
  }

  /** As on a terminal, whose watcher is told each progress as it is written. */
  public static CommandRun watched(Consumer<String> watcher, String... arguments) {
    return run(true, new Watched(watcher), arguments);
  }

  private static CommandRun run(
      boolean interactive, ByteArrayOutputStream err, String... arguments) {
    ByteArrayOutputStream out = new ByteArrayOutputStream();
    Screen screen =
        new Screen(
            new PrintStream(out, true, StandardCharsets.UTF_8),
            new PrintStream(err, true, StandardCharsets.UTF_8),
            true,
            false,
            interactive);
    int exitCode = Application.run(screen, arguments);
    return new CommandRun(
        exitCode, out.toString(StandardCharsets.UTF_8), err.toString(StandardCharsets.UTF_8));
  }

  private static final class Watched extends ByteArrayOutputStream {
    private final Consumer<String> watcher;

    Watched(Consumer<String> watcher) {
      this.watcher = watcher;
    }

    @Override
    public synchronized void write(byte[] bytes, int from, int count) {
      super.write(bytes, from, count);
      watcher.accept(new String(bytes, from, count, StandardCharsets.UTF_8));
    }
  }
}
