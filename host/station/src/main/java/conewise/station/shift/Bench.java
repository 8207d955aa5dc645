package conewise.station.shift;

import conewise.analysis.diagnosis.Motion;
import conewise.analysis.diagnosis.Observation;
import conewise.analysis.diagnosis.Rates;
import conewise.analysis.diagnosis.State;
import conewise.jig.client.JigClient;
import conewise.station.fixture.Artefact;
import conewise.station.fixture.ShiftChallenge;
import conewise.station.records.BoxRun;
import conewise.station.records.Overruling;
import conewise.station.shift.BenchState.Job;
import conewise.station.shift.BenchState.OnBench;
import java.time.Clock;
import java.util.List;
import java.util.Optional;
import java.util.concurrent.LinkedBlockingQueue;
import java.util.concurrent.TimeUnit;
import java.util.function.Consumer;
import java.util.function.UnaryOperator;

/**
 * A bench through a shift. One thread of its own drives the jig; what is asked for from any other
 * thread is put in its queue, so that no two things are ever done at once. What was asked for
 * before the computer slept is not done after it.
 */
public final class Bench implements AutoCloseable {
  private static final long LOOK_MILLIS = 100;
  private static final long END_MILLIS = 10_000;
  private static final int OPERATOR_MAX = 64;

  private final JobShelf shelf;
  private final Optional<ShiftChallenge> challenge;
  private final Clock clock;
  private final JigKeeper jig;
  private final BoxTurn runs;
  private final Keeper keeper;
  private final OverrulingWatch overrulings;
  private final StateBoard board;
  private final SleepWatch sleep;
  private final LinkedBlockingQueue<Order> orders = new LinkedBlockingQueue<>();
  private final Thread worker = new Thread(this::work, "bench");
  private Optional<String> saidOpen = Optional.empty();
  private volatile boolean closed;
  private volatile boolean stopAsked;

  /**
   * A bench, which begins to look for its jig at once.
   *
   * @param shelf the jobs
   * @param jig where the jig comes from
   * @param keeper keeps what is found
   * @param setting how a box is measured and judged
   * @param clock the wall clock
   */
  public Bench(JobShelf shelf, JigSource jig, Keeper keeper, Setting setting, Clock clock) {
    this(shelf, jig, keeper, setting, clock, Optional.empty());
  }

  /**
   * The same, where no box passes before a challenge is met.
   *
   * @param challenge whose artefacts are scanned and measured like boxes
   */
  public Bench(
      JobShelf shelf,
      JigSource jig,
      Keeper keeper,
      Setting setting,
      Clock clock,
      Optional<ShiftChallenge> challenge) {
    this.shelf = shelf;
    this.challenge = challenge;
    this.clock = clock;
    this.keeper = keeper;
    this.jig = new JigKeeper(jig, System::nanoTime, clock);
    sleep = new SleepWatch(clock, System::nanoTime);
    board = new StateBoard(shelf.jobs(), this.jig.line());
    overrulings = new OverrulingWatch(keeper, board, System::nanoTime);
    BoxSweep sweep =
        new BoxSweep(jig, this.jig, setting, clock, board, sleep, () -> stopAsked || closed);
    runs = new BoxTurn(sweep, this.jig, keeper, setting, clock, board, sleep, challenge);
    saidOpen = stillOpen();
    saidOpen.ifPresent(why -> board.change(state -> state.remark(why)));
    worker.setDaemon(true);
    worker.start();
  }

  /**
   * How a box is measured and judged.
   *
   * @param thorough tone by tone rather than all tones at once
   * @param rates how often each fault is met
   * @param station the bench's own name
   * @param software this program's version, for the card
   */
  public record Setting(boolean thorough, Rates rates, String station, String software) {}

  /** What is to be done, and after how many sleeps of the computer it was asked for. */
  private record Order(int sleeps, Runnable what) {}

  /** The bench at this moment. */
  public BenchState state() {
    return board.state();
  }

  /**
   * Tells of every change from now on, on the thread that made it; must return at once.
   *
   * @return takes the listener off again
   */
  public Runnable watch(Consumer<BenchState> listener) {
    return board.watch(listener);
  }

  /**
   * What people decided otherwise than the verdict of a box that is shown, as it is kept now.
   *
   * @throws KeepingException when that cannot be read
   */
  public List<Overruling> overrulings(OnBench judged) throws KeepingException {
    return keeper.overrulings(judged.kept().orElseThrow());
  }

  /** Takes what was scanned or typed: a job's code, a box's number, or nothing to go on. */
  public void scan(String text) {
    String tame = text.strip();
    order(() -> scanned(tame));
  }

  /** The foot switch's order: measures the box that is on the clips. */
  public void start() {
    order(this::measure);
  }

  /** Stops a sweep that runs; the box is not judged then. */
  public void stop() {
    stopAsked = true;
    order(() -> stopAsked = false);
  }

  /** Who works here from now on. */
  public void operator(String name) {
    String tame = name.strip();
    order(
        () ->
            board.change(
                tame.length() > OPERATOR_MAX
                    ? state -> state.remark("A name has at most " + OPERATOR_MAX + " letters.")
                    : state ->
                        state.operator(tame.isEmpty() ? Optional.empty() : Optional.of(tame))));
  }

  /** What a cone did in a pop test of the box whose verdict is shown. */
  public void pop(String driver, Motion motion) {
    order(() -> further(box -> runs.pop(box, new Observation.Pop(driver, motion))));
  }

  /** Sweeps the box whose verdict is shown once more, in another state. */
  public void again(State state) {
    order(() -> further(box -> withJig(client -> runs.again(box, state, client))));
  }

  /** Lets go of the jig and meets it afresh, as after a change on a virtual bench. */
  public void meetJigAgain() {
    order(
        () -> {
          jig.letGo();
          look();
        });
  }

  private void order(Runnable what) {
    orders.add(new Order(sleep.sleeps(), what));
  }

  private void work() {
    while (!closed) {
      try {
        Order order = orders.poll(LOOK_MILLIS, TimeUnit.MILLISECONDS);
        sleep.look();
        sleep.take().ifPresent(this::woken);
        if (order == null) {
          look();
        } else if (order.sleeps() == sleep.sleeps()) {
          order.what().run();
        }
        sleep.lookAfterWork();
      } catch (InterruptedException ended) {
        break;
      } catch (RuntimeException own) {
        // A fault of this program must not end the shift; the box on the bench is not judged.
        board.change(StateBoard.Change::afterFault);
      }
    }
    jig.close();
  }

  /** Nothing that was said before the sleep holds, and the jig is met afresh. */
  private void woken(Slept slept) {
    jig.letGo();
    change(state -> state.woken(slept));
    look();
  }

  private void look() {
    boolean pressed = jig.look();
    if (!jig.line().equals(board.state().jig())) {
      Optional<String> open = stillOpen();
      board.change(state -> state.jig(jig.line()).insteadOf(saidOpen, open));
      saidOpen = open;
    }
    if (pressed) {
      measure();
    } else {
      overrulings.look();
    }
  }

  /** Why no box may pass at this moment, if so. */
  private Optional<String> stillOpen() {
    return challenge.flatMap(each -> each.open(clock.instant(), jig.atBench()));
  }

  private Optional<Artefact> artefact(String number) {
    return challenge.flatMap(each -> each.named(number));
  }

  /** Changes the card, and says on it what the shift still lacks. */
  private void change(UnaryOperator<StateBoard.Change> how) {
    Optional<String> open = stillOpen();
    saidOpen = open;
    board.change(
        state -> open.isPresent() ? how.apply(state).remark(open.get()) : how.apply(state));
  }

  private void scanned(String text) {
    Optional<Job> job = shelf.job(text);
    Optional<Artefact> artefact = artefact(text);
    if (artefact.isPresent()) {
      change(state -> state.box(OnBench.of(artefact.get().name())));
    } else if (job.isPresent()) {
      change(state -> state.job(job.get()));
      runs.expect(shelf.plan(job.get()));
    } else if (text.isEmpty()) {
      measure();
    } else if (board.state().job().isEmpty()) {
      board.change(state -> state.remark("\"" + text + "\" is no job; choose a job first."));
    } else if (text.length() > BoxRun.SERIAL_MAX) {
      board.change(
          state ->
              state.remark(
                  "The number has "
                      + text.length()
                      + " letters; it may have "
                      + BoxRun.SERIAL_MAX
                      + "."));
    } else {
      change(state -> state.box(OnBench.of(text)));
    }
  }

  private void measure() {
    Phase phase = board.state().phase();
    if (phase != Phase.CLIPS && phase != Phase.VERDICT && phase != Phase.NOT_KEPT) {
      board.change(state -> state.remark("Scan the box's number first."));
      return;
    }
    OnBench box = OnBench.of(board.state().box().orElseThrow().serial());
    Optional<Artefact> artefact = artefact(box.serial());
    if (artefact.isPresent()) {
      withJig(client -> runs.prove(artefact.get(), box, client));
      return;
    }
    Job job = board.state().job().orElseThrow();
    withJig(client -> runs.first(job, shelf.plan(job), box, client));
  }

  private void withJig(Consumer<JigClient> use) {
    if (jig.client().isEmpty()) {
      look();
    }
    if (jig.client().isEmpty()) {
      board.change(state -> state.remark("The jig does not answer, so nothing was measured."));
      return;
    }
    stopAsked = false;
    use.accept(jig.client().get());
  }

  private void further(Consumer<OnBench> test) {
    if (board.state().phase() == Phase.VERDICT) {
      test.accept(board.state().box().orElseThrow());
    }
  }

  /** Ends the shift: stops what runs, lets go of the jig. */
  @Override
  public void close() {
    closed = true;
    try {
      worker.join(END_MILLIS);
    } catch (InterruptedException e) {
      Thread.currentThread().interrupt();
    }
  }
}
