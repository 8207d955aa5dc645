package conewise.station.pop;

import conewise.analysis.diagnosis.Motion;
import conewise.station.answer.CommandFailure;
import conewise.station.answer.ExitCode;
import java.io.PrintStream;
import java.util.Locale;
import java.util.Optional;
import java.util.function.Supplier;

/** Instructions to a person and the answers. */
public final class PopTalk {
  private static final int TRIES = 5;

  private final PrintStream out;
  private final Supplier<Optional<String>> line;

  /**
   * A talk.
   *
   * @param out where instructions go
   * @param line the next line that a person types; none when nobody will type any more
   */
  public PopTalk(PrintStream out, Supplier<Optional<String>> line) {
    this.out = out;
    this.line = line;
  }

  /** Tells something. */
  public void say(String sentence) {
    out.println(sentence);
  }

  /** Tells what is at stake before anything moves. */
  public void cautions(PopWay way) {
    say("Before you begin: no amplifier may be connected, on or off. Fingers off the cones.");
    if (way == PopWay.BATTERY) {
      say(
          "Take the jig's clips off the box. One dry cell of 1.5 V; 9 V is the most; never a car"
              + " battery or a power tool's pack. Touch for less than a second: a coil that stays"
              + " on a battery gets hot.");
    } else {
      say("No battery may be on the box: the jig alone drives it, with 0.8 V or less.");
    }
  }

  /** Waits for Enter. */
  public void waitFor(String sentence) throws CommandFailure {
    say(sentence + " Then press Enter.");
    next();
  }

  private String next() throws CommandFailure {
    return line.get()
        .map(text -> text.strip().toLowerCase(Locale.ROOT))
        .orElseThrow(
            () ->
                new CommandFailure(
                    ExitCode.NOT_JUDGED,
                    "The pop test was left before its end and nothing was kept. Where nobody can"
                        + " type, give each answer like --answer left=out."));
  }

  /** Asks yes or no by Enter or a word. */
  public boolean wants(String question) throws CommandFailure {
    say(question + " Press Enter to do it again, or type skip.");
    return next().isEmpty();
  }

  /** What comes of asking. */
  public record Answer(Optional<Motion> seen, boolean again) {}

  /** Asks what a cone did. */
  public Answer ask(String driver) throws CommandFailure {
    for (int attempt = 1; attempt <= TRIES; attempt++) {
      say("What did the cone of driver " + driver + " do: out, in or hardly? (again, skip)");
      String text = next();
      Optional<Motion> motion = MotionWords.read(text);
      if (motion.isPresent() || text.equals("skip")) {
        return new Answer(motion, false);
      }
      if (text.equals("again")) {
        return new Answer(Optional.empty(), true);
      }
    }
    throw new CommandFailure(
        ExitCode.NOT_JUDGED,
        "No answer for driver "
            + driver
            + " was out, in, hardly, again or skip in "
            + TRIES
            + " tries; nothing was kept.");
  }
}
