package conewise.protocol.vectors;

import conewise.protocol.Checksum;
import conewise.protocol.Line;
import java.nio.charset.StandardCharsets;
import java.util.Optional;

/**
 * Runs one dialogue against one jig. Lines about the foot switch and about clipping may come at any
 * time and are passed over unless they are expected. After the last step nothing else may come.
 */
public final class DialogueRunner {
  private static final int LINE_LIMIT_MILLISECONDS = 2_000;
  private static final int QUIET_MILLISECONDS = 100;
  private static final String PLACEHOLDER = " ~....";

  private final JigUnderTest jig;
  private Optional<Line> next = Optional.empty();

  /** A runner for a fresh jig; for one dialogue only. */
  public DialogueRunner(JigUnderTest jig) {
    this.jig = jig;
  }

  /**
   * Runs a dialogue.
   *
   * @param dialogue one that {@link Dialogue#resolve} gave
   * @return what went wrong first, with the dialogue's name; empty if nothing did
   */
  public Optional<String> run(Dialogue dialogue) {
    int number = 0;
    for (Dialogue.Step step : dialogue.steps()) {
      number++;
      Optional<String> complaint = run(step);
      if (complaint.isPresent()) {
        return Optional.of(dialogue.name() + ", step " + number + ": " + complaint.get());
      }
    }
    return peek(QUIET_MILLISECONDS)
        .map(line -> dialogue.name() + ": after the last step came " + line);
  }

  private Optional<String> run(Dialogue.Step step) {
    if (step instanceof Dialogue.Send send) {
      jig.send((seal(send.wire()) + "\n").getBytes(StandardCharsets.ISO_8859_1));
      return Optional.empty();
    }
    if (step instanceof Dialogue.Pause pause) {
      jig.pause(Integer.parseInt(pause.milliseconds()));
      return Optional.empty();
    }
    Dialogue.Expect expect = (Dialogue.Expect) step;
    return expect.repeated() ? passOver(expect.line()) : await(expect.line());
  }

  private Optional<String> passOver(ExpectedLine expected) {
    Optional<Line> line = peek(LINE_LIMIT_MILLISECONDS);
    while (line.isPresent() && expected.complaint(line.get()).isEmpty()) {
      next = Optional.empty();
      line = peek(LINE_LIMIT_MILLISECONDS);
    }
    return Optional.empty();
  }

  private Optional<String> await(ExpectedLine expected) {
    Optional<Line> line = peek(LINE_LIMIT_MILLISECONDS);
    next = Optional.empty();
    if (line.isEmpty()) {
      return Optional.of(
          "expected \""
              + expected.pattern()
              + "\", but nothing came within "
              + LINE_LIMIT_MILLISECONDS
              + " ms");
    }
    return expected.complaint(line.get());
  }

  /** The next line that counts, left in place. */
  private Optional<Line> peek(int milliseconds) {
    while (next.isEmpty()) {
      next = jig.nextLine(milliseconds);
      if (next.isEmpty() || !isIncidental(next.get())) {
        return next;
      }
      next = Optional.empty();
    }
    return next;
  }

  private static boolean isIncidental(Line line) {
    return line instanceof Line.Sound sound
        && (sound.text().startsWith("! foot ") || sound.text().startsWith("! clipping "));
  }

  /**
   * Puts the right checksum in place of each placeholder at the end of a line; a CR after it stays.
   */
  static String seal(String wire) {
    StringBuilder sealed = new StringBuilder();
    for (String line : wire.split("(?<=\n)", -1)) {
      int at = line.indexOf(PLACEHOLDER);
      sealed.append(
          at < 0
              ? line
              : Checksum.seal(line.substring(0, at)) + line.substring(at + PLACEHOLDER.length()));
    }
    return sealed.toString();
  }
}
