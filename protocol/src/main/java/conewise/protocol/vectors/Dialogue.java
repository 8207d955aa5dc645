package conewise.protocol.vectors;

import conewise.protocol.JigIdentity;
import java.util.List;
import java.util.Optional;

/**
 * What is sent to a fresh jig (just started, its ready line read) and what it must send back.
 *
 * @param name file and title, such as {@code play.txt: a wave replaces a wave}
 * @param conditions what must hold of a jig for the dialogue to apply
 * @param steps in order
 */
public record Dialogue(String name, List<Condition> conditions, List<Step> steps) {
  /** A dialogue. */
  public Dialogue {
    conditions = List.copyOf(conditions);
    steps = List.copyOf(steps);
  }

  /**
   * A number of the jig that must have a value.
   *
   * @param variable its name in {@link DialogueVariables}
   * @param value the value
   */
  public record Condition(String variable, long value) {}

  /** One step. */
  public sealed interface Step {}

  /**
   * Send a line.
   *
   * @param wire its characters without the last LF, one a byte; a last word {@code ~....} stands
   *     for the right checksum
   */
  public record Send(String wire) implements Step {}

  /**
   * A line must come.
   *
   * @param line the line
   * @param repeated whether any number of such lines, none included, may come
   */
  public record Expect(ExpectedLine line, boolean repeated) implements Step {}

  /**
   * Send nothing for a while; lines that come meanwhile wait for the steps after.
   *
   * @param milliseconds how long, a whole number once the dialogue is resolved
   */
  public record Pause(String milliseconds) implements Step {}

  /**
   * Whether it changes what a jig keeps without power: not to be run against a jig in use without
   * asking.
   */
  public boolean changesStore() {
    return steps.stream()
        .anyMatch(step -> step instanceof Send send && send.wire().contains("store "));
  }

  /**
   * The dialogue with the numbers of a certain jig in place of names in braces.
   *
   * @return empty if a condition does not hold of this jig
   * @throws IllegalArgumentException if a name is unknown
   */
  public Optional<Dialogue> resolve(JigIdentity identity) {
    DialogueVariables variables = new DialogueVariables(identity);
    boolean applies =
        conditions.stream()
            .allMatch(condition -> variables.value(condition.variable()) == condition.value());
    if (!applies) {
      return Optional.empty();
    }
    return Optional.of(
        new Dialogue(
            name, List.of(), steps.stream().map(step -> resolve(step, variables)).toList()));
  }

  private static Step resolve(Step step, DialogueVariables variables) {
    if (step instanceof Send send) {
      return new Send(variables.fill(send.wire()));
    }
    if (step instanceof Expect expect) {
      return new Expect(
          new ExpectedLine(variables.fill(expect.line().pattern())), expect.repeated());
    }
    return new Pause(variables.fill(((Pause) step).milliseconds()));
  }
}
