package conewise.jig.sweep;

/** What a sweep came to: a result, or an interruption from which it can go on. */
public sealed interface SweepOutcome permits SweepResult, Interrupted {}
