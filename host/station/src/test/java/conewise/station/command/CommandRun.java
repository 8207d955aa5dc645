package conewise.station.command;

import conewise.station.answer.Screen;
import java.io.ByteArrayOutputStream;
import java.io.PrintStream;
import java.nio.charset.StandardCharsets;

/**
 * One command line, run in this process.
 *
 * @param exitCode what it handed back
 * @param out what it answered
 * @param err progress and errors
 */
public record CommandRun(int exitCode, String out, String err) {
  public static CommandRun of(String... arguments) {
    ByteArrayOutputStream out = new ByteArrayOutputStream();
    ByteArrayOutputStream err = new ByteArrayOutputStream();
    Screen screen =
        new Screen(
            new PrintStream(out, true, StandardCharsets.UTF_8),
            new PrintStream(err, true, StandardCharsets.UTF_8),
            true,
            false,
            false);
    int exitCode = Application.run(screen, arguments);
    return new CommandRun(
        exitCode, out.toString(StandardCharsets.UTF_8), err.toString(StandardCharsets.UTF_8));
  }
}
