package conewise.jig.sweep;

import conewise.jig.client.JigClient;
import conewise.jig.client.JigFault;
import conewise.jig.client.JigFaultException;
import java.util.Optional;

/** What sweeps of both kinds do around an interruption. */
final class Resumption {

  private Resumption() {}

  /** Why a sweep may not go on from this state on this jig; empty when it may. */
  static Optional<Interrupted> refusal(SweepKind kind, JigClient client, SweepState state) {
    if (state.kind() != kind) {
      return Optional.of(
          unsuited(
              state,
              "The interrupted sweep was a "
                  + state.kind().name().toLowerCase(java.util.Locale.ROOT)
                  + " one.",
              "Resume it as such, or start over."));
    }
    if (!state.isOf(client.identity())) {
      return Optional.of(
          unsuited(
              state,
              "The interrupted sweep was begun on another jig (serial "
                  + state.jig().jig().serial().orElse("none")
                  + ", board "
                  + state.jig().jig().board()
                  + ") than the one connected (serial "
                  + client.identity().jig().serial().orElse("none")
                  + ", board "
                  + client.identity().jig().board()
                  + "), or that jig has changed since.",
              "Connect the first jig, or start over on this one."));
    }
    return Optional.empty();
  }

  private static Interrupted unsuited(SweepState state, String sentence, String nextStep) {
    return new Interrupted(new JigFault.Unsuited(sentence, nextStep), state);
  }

  /** Turns the drive off, as far as the jig still answers; if not, it falls silent by itself. */
  static void stopIfItAnswers(JigClient client) {
    try {
      client.stop();
    } catch (JigFaultException gone) {
      // What went wrong before is what is reported; a jig that hears nothing halts within 2 s.
    }
  }
}
