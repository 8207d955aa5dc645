package conewise.station;

import conewise.station.answer.Screen;
import conewise.station.command.Application;

/** Starts the application from the command line. */
public final class Conewise {
  private Conewise() {}

  /**
   * Runs one command and ends the process with its exit code.
   *
   * @param arguments the command and its options; {@code --help} explains them
   */
  public static void main(String[] arguments) {
    System.exit(Application.run(Screen.ofProcess(), arguments));
  }
}
