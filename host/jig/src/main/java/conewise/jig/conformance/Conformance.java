package conewise.jig.conformance;

import conewise.protocol.JigIdentity;
import conewise.protocol.link.ByteLink;
import conewise.protocol.link.LinkLostException;
import conewise.protocol.vectors.Dialogue;
import conewise.protocol.vectors.DialogueFile;
import conewise.protocol.vectors.DialogueRunner;
import java.io.UncheckedIOException;
import java.util.ArrayList;
import java.util.List;
import java.util.Map;
import java.util.Optional;
import java.util.function.Consumer;

/**
 * One contract for every jig: virtual, emulated, or on a port. Each dialogue of the specification
 * is held with a jig that has just started; every wait is bounded by the link's clock.
 */
public final class Conformance {

  /** Where the specification speaks of what each file of dialogues holds. */
  private static final Map<String, String> SECTIONS =
      Map.of(
          "identify.txt", "5, identify",
          "play.txt", "5, load, play and limit",
          "record.txt", "5, record",
          "fixture.txt", "5, lamp, buzz and status",
          "store.txt", "5, store",
          "lines.txt", "3 and 4",
          "refusals.txt", "6",
          "halts.txt", "7");

  /** Opens a link to a jig that starts afresh, as most boards do when their port is opened. */
  @FunctionalInterface
  public interface Fresh {
    /**
     * Opens.
     *
     * @throws LinkLostException when nothing is there
     */
    ByteLink open() throws LinkLostException;
  }

  /** What became of a dialogue. */
  public enum Outcome {
    /** The jig held to it. */
    HELD,
    /** The jig departed from it. */
    BROKEN,
    /** It speaks of parts or limits that this jig does not have, or changes what the jig keeps. */
    PASSED_OVER
  }

  /**
   * One dialogue's result.
   *
   * @param dialogue its file and title
   * @param outcome what became of it
   * @param complaint what went wrong first; empty unless broken
   * @param section where protocol/spec.md speaks of it
   * @param exchange the lines sent ({@code >}) and received ({@code <}), in order; empty unless
   *     broken
   */
  public record Result(
      String dialogue, Outcome outcome, String complaint, String section, List<String> exchange) {
    public Result {
      exchange = List.copyOf(exchange);
    }
  }

  private final Fresh fresh;
  private final boolean withStore;

  /**
   * A contract with one jig.
   *
   * @param fresh how to reach it, just started
   * @param withStore true to hold also the dialogues that write what the jig keeps without power,
   *     and clear it at their end
   */
  public Conformance(Fresh fresh, boolean withStore) {
    this.fresh = fresh;
    this.withStore = withStore;
  }

  /** How many dialogues there are. */
  public static int dialogues() {
    return DialogueFile.packaged().size();
  }

  /**
   * Holds every dialogue.
   *
   * @param identity what the jig says of itself
   * @param listener told of each result as it comes
   * @return the results in the order of the files
   * @throws LinkLostException when the jig can no longer be reached, or does not start afresh when
   *     its link is opened
   */
  public List<Result> run(JigIdentity identity, Consumer<Result> listener)
      throws LinkLostException {
    List<Result> results = new ArrayList<>();
    for (Dialogue dialogue : DialogueFile.packaged()) {
      Result result = hold(dialogue, identity);
      results.add(result);
      listener.accept(result);
    }
    return results;
  }

  private Result hold(Dialogue dialogue, JigIdentity identity) throws LinkLostException {
    String file = dialogue.name().substring(0, Math.max(0, dialogue.name().indexOf(':')));
    String section = SECTIONS.getOrDefault(file, "1 to 9");
    Optional<Dialogue> resolved = dialogue.resolve(identity);
    if (resolved.isEmpty() || (dialogue.changesStore() && !withStore)) {
      return new Result(dialogue.name(), Outcome.PASSED_OVER, "", section, List.of());
    }
    try (LinkedJig jig = new LinkedJig(fresh.open())) {
      Optional<String> complaint = converse(jig, resolved.get());
      return complaint
          .map(words -> new Result(dialogue.name(), Outcome.BROKEN, words, section, jig.exchange()))
          .orElseGet(() -> new Result(dialogue.name(), Outcome.HELD, "", section, List.of()));
    }
  }

  private static Optional<String> converse(LinkedJig jig, Dialogue dialogue)
      throws LinkLostException {
    try {
      jig.awaitStart();
      return new DialogueRunner(jig).run(dialogue);
    } catch (UncheckedIOException lost) {
      return Optional.of(dialogue.name() + ": the link was lost");
    }
  }
}
