package conewise.station.answer;

import java.io.Console;
import java.io.FileDescriptor;
import java.io.FileOutputStream;
import java.io.PrintStream;
import java.nio.charset.Charset;
import java.nio.charset.StandardCharsets;
import java.util.Locale;
import java.util.Map;

/**
 * Where answers and remarks go, and what the other side can show.
 *
 * @param out answers
 * @param err progress and errors
 * @param unicode true when characters beyond ASCII arrive whole
 * @param colour true when colour may be used
 * @param interactive true when a person watches a terminal
 */
public record Screen(
    PrintStream out, PrintStream err, boolean unicode, boolean colour, boolean interactive) {

  /** The process's own streams. Colour only on a terminal, and never where NO_COLOR is set. */
  public static Screen ofProcess() {
    boolean interactive = isTerminal();
    boolean unicode = System.getProperty("native.encoding", "").equalsIgnoreCase("UTF-8");
    Charset charset = unicode ? StandardCharsets.UTF_8 : StandardCharsets.US_ASCII;
    return new Screen(
        new PrintStream(new FileOutputStream(FileDescriptor.out), true, charset),
        new PrintStream(new FileOutputStream(FileDescriptor.err), true, charset),
        unicode,
        interactive && wantsColour(System.getenv()),
        interactive);
  }

  /** What letters are written as. */
  public Charset charset() {
    return unicode ? StandardCharsets.UTF_8 : StandardCharsets.US_ASCII;
  }

  /** By the habit of no-color.org: any value but an empty one turns colour off. */
  static boolean wantsColour(Map<String, String> environment) {
    return environment.getOrDefault("NO_COLOR", "").isEmpty()
        && !environment.getOrDefault("TERM", "").equals("dumb");
  }

  // Up to Java 21 a console means a terminal; from Java 22 on there is always one, and it is asked.
  @SuppressWarnings("SystemConsoleNull")
  private static boolean isTerminal() {
    Console console = System.console();
    if (console == null) {
      return false;
    }
    try {
      return (boolean) Console.class.getMethod("isTerminal").invoke(console);
    } catch (NoSuchMethodException upToJava21) {
      return true;
    } catch (ReflectiveOperationException e) {
      throw new IllegalStateException("the console does not say whether it is a terminal", e);
    }
  }

  /**
   * Text on a ground of the given hue in black, or as it is where colour is off.
   *
   * @param text what to show
   * @param hue as {@code #RRGGBB}
   */
  String tinted(String text, String hue) {
    if (!colour) {
      return text;
    }
    int rgb = Integer.parseInt(hue.substring(1), 16);
    return String.format(
        Locale.ROOT,
        "\u001b[1;30;48;2;%d;%d;%dm%s\u001b[0m",
        rgb >> 16,
        rgb >> 8 & 0xFF,
        rgb & 0xFF,
        text);
  }
}
