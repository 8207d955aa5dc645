package conewise.station.shift;

import conewise.station.records.Overruling;
import conewise.station.shift.BenchState.OnBench;
import java.util.List;
import java.util.function.LongSupplier;

/**
 * Looks now and then whether a person has overruled the verdict that is shown, from whatever
 * program, and says so beside it. Used by the bench's own thread alone.
 */
final class OverrulingWatch {
  private static final long BETWEEN_LOOKS_NANOS = 2_000_000_000L;

  /** A server that does not answer must not keep the bench from its next box again and again. */
  private static final long AFTER_TROUBLE_NANOS = 60_000_000_000L;

  private final Keeper keeper;
  private final StateBoard board;
  private final LongSupplier clock;
  private long next;

  OverrulingWatch(Keeper keeper, StateBoard board, LongSupplier clock) {
    this.keeper = keeper;
    this.board = board;
    this.clock = clock;
    next = clock.getAsLong();
  }

  /** Looks, where a verdict is shown and it is time to. */
  void look() {
    BenchState state = board.state();
    if (state.phase() == Phase.VERDICT && clock.getAsLong() - next >= 0) {
      state.box().ifPresent(this::look);
    }
  }

  private void look(OnBench box) {
    long wait = BETWEEN_LOOKS_NANOS;
    try {
      List<Overruling> now = keeper.overrulings(box.kept().orElseThrow());
      if (!now.equals(box.overruled())) {
        board.change(state -> state.overruled(box.overruled(now)));
      }
    } catch (KeepingException unread) {
      wait = AFTER_TROUBLE_NANOS;
      board.change(
          state ->
              state.remark(
                  "Whether somebody has overruled this verdict cannot be read: "
                      + unread.getMessage()));
    }
    next = clock.getAsLong() + wait;
  }
}
