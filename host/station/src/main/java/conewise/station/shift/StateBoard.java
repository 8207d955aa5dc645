package conewise.station.shift;

import conewise.analysis.prediction.ExpectedBand;
import conewise.station.shift.BenchState.Done;
import conewise.station.shift.BenchState.JigLine;
import conewise.station.shift.BenchState.Job;
import conewise.station.shift.BenchState.OnBench;
import java.util.ArrayList;
import java.util.List;
import java.util.Optional;
import java.util.concurrent.CopyOnWriteArrayList;
import java.util.function.Consumer;
import java.util.function.UnaryOperator;

/** Holds the bench's snapshot and tells of each new one. Changed by the bench's thread alone. */
final class StateBoard {
  /** A shift has fewer boxes than this; the strip shows the latest. */
  private static final int TODAY_MOST = 60;

  private final List<Consumer<BenchState>> listeners = new CopyOnWriteArrayList<>();
  private volatile BenchState state;

  StateBoard(List<Job> jobs, JigLine jig) {
    state =
        new BenchState(
            0,
            Phase.JOB,
            Optional.empty(),
            jobs,
            Optional.empty(),
            Optional.empty(),
            Optional.empty(),
            jig,
            Optional.empty(),
            Optional.empty(),
            List.of());
  }

  BenchState state() {
    return state;
  }

  Runnable watch(Consumer<BenchState> listener) {
    listeners.add(listener);
    return () -> listeners.remove(listener);
  }

  /** Makes a new snapshot of the present one; a remark lasts until the next change. */
  void change(UnaryOperator<Change> how) {
    Change change = how.apply(new Change(state));
    state = change.made();
    listeners.forEach(each -> each.accept(state));
  }

  /** A snapshot that is being changed. */
  static final class Change {
    private final BenchState from;
    private Phase phase;
    private Optional<String> operator;
    private Optional<Job> job;
    private Optional<ExpectedBand> expected;
    private Optional<OnBench> box;
    private JigLine jig;
    private Optional<Slept> slept;
    private Optional<String> remark = Optional.empty();
    private List<Done> today;

    private Change(BenchState from) {
      this.from = from;
      phase = from.phase();
      operator = from.operator();
      job = from.job();
      expected = from.expected();
      box = from.box();
      jig = from.jig();
      slept = from.slept();
      today = from.today();
    }

    Change phase(Phase now) {
      phase = now;
      return this;
    }

    Change operator(Optional<String> name) {
      operator = name;
      return this;
    }

    /** Another job: the last box has left the bench. */
    Change job(Job chosen) {
      job = Optional.of(chosen);
      expected = Optional.empty();
      box = Optional.empty();
      slept = Optional.empty();
      phase = Phase.NUMBER;
      return this;
    }

    /** Where the job's boxes should lie; a remark stays. */
    Change expected(ExpectedBand band) {
      expected = Optional.of(band);
      remark = from.remark();
      return this;
    }

    /** The same box with more to see of it; a remark stays. */
    Change more(OnBench same) {
      box = Optional.of(same);
      remark = from.remark();
      return this;
    }

    /** The box whose verdict is shown with what people decided of it, here and in the strip. */
    Change overruled(OnBench same) {
      List<Done> all = new ArrayList<>(today);
      for (int i = 0; i < all.size(); i++) {
        if (all.get(i).serial().equals(same.serial())) {
          all.set(i, all.get(i).overruled(!same.overruled().isEmpty()));
          break;
        }
      }
      today = all;
      return more(same);
    }

    /** Another box: nothing of the last one stays. */
    Change box(OnBench next) {
      box = Optional.of(next);
      slept = Optional.empty();
      phase = Phase.CLIPS;
      return this;
    }

    /** A fault of the program: the box, if there is one, is to be measured again. */
    Change afterFault() {
      if (box.isPresent()) {
        box(OnBench.of(box.get().serial()));
      }
      return remark("The program met a fault of its own; measure again.");
    }

    Change box(OnBench same, Phase now) {
      box = Optional.of(same);
      slept = Optional.empty();
      phase = now;
      return this;
    }

    /** The computer slept: whatever was said of the box on the clips is not said any more. */
    Change woken(Slept how) {
      box.ifPresent(same -> box(OnBench.of(same.serial())));
      return slept(how);
    }

    /** The same, where what is said of the box was judged with the sleep. */
    Change slept(Slept how) {
      slept = Optional.of(how);
      return this;
    }

    /** The line has nothing to do with what was asked for: a remark stays. */
    Change jig(JigLine line) {
      jig = line;
      remark = from.remark();
      return this;
    }

    Change remark(String why) {
      remark = Optional.of(why);
      return this;
    }

    /** What the shift lacks now in place of what it lacked; another remark stays. */
    Change insteadOf(Optional<String> before, Optional<String> now) {
      if (remark.isEmpty() || remark.equals(before)) {
        remark = now;
      }
      return this;
    }

    Change done(Done one) {
      List<Done> all = new ArrayList<>(List.of(one));
      today.stream()
          .filter(each -> !(each.serial().equals(one.serial()) && each.attempt() == one.attempt()))
          .limit(TODAY_MOST - 1)
          .forEach(all::add);
      today = all;
      return this;
    }

    private BenchState made() {
      return new BenchState(
          from.version() + 1,
          phase,
          operator,
          from.jobs(),
          job,
          expected,
          box,
          jig,
          slept,
          remark,
          today);
    }
  }
}
