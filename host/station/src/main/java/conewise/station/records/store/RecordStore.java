package conewise.station.records.store;

import conewise.analysis.diagnosis.SweptState;
import conewise.analysis.judgement.Verdict;
import conewise.station.records.Appended;
import conewise.station.records.BoxRun;
import conewise.station.records.KeptRun;
import conewise.station.records.Overruling;
import conewise.station.records.PlanText;
import conewise.station.records.RecordsException;
import conewise.station.records.RecordsException.Kind;
import conewise.station.records.RunFilter;
import conewise.station.records.RunLine;
import conewise.station.records.Sighting;
import conewise.station.records.trend.ReadFigure;
import conewise.station.records.trend.Suspected;
import conewise.station.records.trend.WeeklyYield;
import java.io.IOException;
import java.nio.file.Files;
import java.nio.file.Path;
import java.sql.Connection;
import java.sql.SQLException;
import java.time.Instant;
import java.time.ZoneId;
import java.util.List;
import java.util.Optional;

/**
 * The records. What is in them is never changed or deleted; the database itself refuses it. May be
 * used by several threads: a reading thread never waits for a writing one.
 */
public final class RecordStore implements AutoCloseable {
  private final Engine engine;
  private final RecordPlace place;
  private final Link reader;
  private final Link writer;

  private RecordStore(Engine engine, RecordPlace place) {
    this.engine = engine;
    this.place = place;
    this.reader = new Link(engine, engine.forReading(), Kind.NOT_READ);
    this.writer = new Link(engine, engine.forWriting(), Kind.NOT_WRITTEN);
  }

  /**
   * Opens the records, and lays them out where there are none yet.
   *
   * @throws RecordsException when they cannot be opened, or something else is there
   */
  public static RecordStore open(RecordPlace place) throws RecordsException {
    if (place instanceof RecordPlace.OfFile file) {
      makeFolder(file.file());
    }
    return laidOut(place);
  }

  /**
   * Opens records that must be there already.
   *
   * @throws RecordsException when there are none, or they cannot be opened
   */
  public static RecordStore openExisting(RecordPlace place) throws RecordsException {
    if (place instanceof RecordPlace.OfFile file && Files.notExists(file.file())) {
      throw new RecordsException(
          Kind.NOT_READ,
          "There are no records at "
              + place.shown()
              + "; name their file or server with --records.");
    }
    return laidOut(place);
  }

  private static RecordStore laidOut(RecordPlace place) throws RecordsException {
    Engine engine =
        place instanceof RecordPlace.OfServer server
            ? new PostgresEngine(server)
            : new SqliteEngine(((RecordPlace.OfFile) place).file());
    return laidOut(engine, place);
  }

  static RecordStore laidOut(Engine engine, RecordPlace place) throws RecordsException {
    Layout.bringUpToDate(engine, place);
    return new RecordStore(engine, place);
  }

  private static void makeFolder(Path file) throws RecordsException {
    Path folder = file.toAbsolutePath().getParent();
    try {
      if (folder != null) {
        Files.createDirectories(folder);
      }
    } catch (IOException e) {
      throw new RecordsException(
          Kind.NOT_WRITTEN, "The folder " + folder + " of the records cannot be made.", e);
    }
  }

  /** Where the records are. */
  public RecordPlace place() {
    return place;
  }

  /**
   * Adds a run. When this returns, the run is on the disk, whole; when it throws, no part of it is,
   * but for a lost answer of a server: appending the same run once more is then right, and adds it
   * at most once.
   *
   * @return its number and the attempt that was counted
   */
  public Appended append(BoxRun run) throws RecordsException {
    return writer.run(connection -> new RunWriter(engine, connection).append(run));
  }

  /** Adds what a person saw of a box that is in the records. */
  public void addSighting(long run, Sighting sighting) throws RecordsException {
    add(run, writer -> writer.add(run, sighting));
  }

  /**
   * Adds that a person decides otherwise than the verdict; the verdict itself stays.
   *
   * @param shown the run as that person saw it
   * @throws RecordsException also where another person has overruled it since
   */
  public void overrule(KeptRun shown, Overruling overruling) throws RecordsException {
    writer.run(
        connection -> {
          engine.holdBox(connection, shown.run().job(), shown.run().serial());
          RunFinder runs = new RunFinder(connection);
          requireThere(runs.jobOf(shown.id()), shown.id());
          if (runs.overrulings(shown.id()) != shown.overrulings().size()) {
            throw new RecordsException(
                Kind.NOT_WRITTEN,
                "Somebody has overruled run "
                    + shown.id()
                    + " since you looked at it, so nothing was added; look again.");
          }
          new RunWriter(engine, connection).add(shown.id(), overruling);
          return shown.id();
        });
  }

  /**
   * What people decided otherwise than the verdict of a run, in the order in which they did.
   *
   * @param run the run's number; none are answered where there is no such run
   */
  public List<Overruling> overrulings(long run) throws RecordsException {
    return reader.run(connection -> new RunReader(connection).overrulings(run));
  }

  /** What is added to a run, within the transaction that looks whether it is there. */
  private interface Addition {
    void by(RunWriter writer) throws SQLException;
  }

  private void add(long run, Addition addition) throws RecordsException {
    writer.run(
        connection -> {
          requireThere(new RunFinder(connection).jobOf(run), run);
          addition.by(new RunWriter(engine, connection));
          return run;
        });
  }

  /**
   * Adds what came to a run after its first judgement, and what is said of the box with it: all of
   * it or nothing.
   *
   * @param run the run's number
   * @param sweep a sweep of the same box in another state
   * @param sighting what a person saw of it
   * @return the judgement's number within the run, at least 2
   */
  public int addFurther(
      long run,
      Optional<SweptState> sweep,
      Optional<Sighting> sighting,
      PlanText plan,
      Instant at,
      String software,
      Verdict verdict)
      throws RecordsException {
    return writer.run(
        connection -> {
          RunWriter runs = new RunWriter(engine, connection);
          int number = judge(connection, runs, run, plan, at, software, verdict);
          if (sweep.isPresent()) {
            runs.add(run, sweep.get());
          }
          if (sighting.isPresent()) {
            runs.add(run, sighting.get());
          }
          return number;
        });
  }

  /**
   * Adds a later judgement of a run under other limits; the ones before it stay.
   *
   * @param run the run's number
   * @param plan by which it was judged now; a text that its job has not met is a new version
   * @param at when
   * @param software by which version of this application
   * @param verdict what was said
   * @return the judgement's number within the run, at least 2
   */
  public int addJudgement(long run, PlanText plan, Instant at, String software, Verdict verdict)
      throws RecordsException {
    return writer.run(
        connection ->
            judge(connection, new RunWriter(engine, connection), run, plan, at, software, verdict));
  }

  private static int judge(
      Connection connection,
      RunWriter runs,
      long run,
      PlanText plan,
      Instant at,
      String software,
      Verdict verdict)
      throws SQLException, RecordsException {
    long job = requireThere(new RunFinder(connection).jobOf(run), run);
    long limits = runs.limits(job, plan, at).id();
    return new JudgementWriter(connection).add(run, limits, at, software, verdict);
  }

  /** The runs that a filter lets through, newest first. */
  public List<RunLine> list(RunFilter filter) throws RecordsException {
    return reader.run(connection -> new RunFinder(connection).list(filter, Optional.empty()));
  }

  /** The same from behind a place on: the next page of a list. */
  public List<RunLine> listBefore(RunLine.Place place, RunFilter filter) throws RecordsException {
    return reader.run(connection -> new RunFinder(connection).list(filter, Optional.of(place)));
  }

  /** The last run of each box that had more than one, most attempts first. */
  public List<RunLine> lastOfRetested(RunFilter filter) throws RecordsException {
    return reader.run(connection -> new RunFinder(connection).lastOfRetested(filter));
  }

  /** Runs whose verdict a person overruled, newest first. */
  public List<RunLine> overruled(RunFilter filter) throws RecordsException {
    return reader.run(connection -> new RunFinder(connection).overruled(filter));
  }

  /** One run with its raw captures; empty when there is none of that number. */
  public Optional<KeptRun> run(long id) throws RecordsException {
    return reader.run(connection -> new RunReader(connection).run(id, true));
  }

  /** The same without the captures, which are most of it. */
  public Optional<KeptRun> runWithoutCaptures(long id) throws RecordsException {
    return reader.run(connection -> new RunReader(connection).run(id, false));
  }

  /** How many attempts a box has had. */
  public int attempts(String job, String serial) throws RecordsException {
    return reader.run(
        connection -> {
          try (Sql sql =
              new Sql(
                  connection,
                  "SELECT COALESCE(MAX(r.attempt), 0) AS most FROM run r JOIN job j ON j.id ="
                      + " r.job_id WHERE j.name = ? AND r.serial = ?")) {
            return sql.with(job, serial).first(row -> row.count("most")).orElseThrow();
          }
        });
  }

  /** The names of all jobs, in order. */
  public List<String> jobs() throws RecordsException {
    return reader.run(
        connection -> {
          try (Sql sql = new Sql(connection, "SELECT name FROM job ORDER BY name")) {
            return sql.all(row -> row.text("name"));
          }
        });
  }

  /**
   * The yield of each week, of the runs that a filter lets through, in order.
   *
   * @param zone of the shop
   */
  public List<WeeklyYield> weeklyYield(RunFilter filter, ZoneId zone) throws RecordsException {
    return reader.run(connection -> new RunCounter(connection).weeklyYield(filter, zone));
  }

  /** Of the runs that a filter lets through, those that failed and why, in order of time. */
  public List<Suspected> suspected(RunFilter filter) throws RecordsException {
    return reader.run(connection -> new RunCounter(connection).suspected(filter));
  }

  /**
   * A figure of the runs that a filter lets through, in order of time; runs without it are left
   * out.
   *
   * @param name a check's, such as {@code tuning}, or an estimate's, such as {@code peak-1-hz}
   */
  public List<ReadFigure> figures(String name, RunFilter filter) throws RecordsException {
    return reader.run(connection -> new RunCounter(connection).figures(name, filter));
  }

  /** The names of the figures that the newest 200 of these runs have. */
  public List<String> figureNames(RunFilter filter) throws RecordsException {
    return reader.run(connection -> new RunCounter(connection).figureNames(filter));
  }

  /** All serials of a job that have a run. */
  public List<String> serials(String job) throws RecordsException {
    return reader.run(connection -> new RunCounter(connection).serials(job));
  }

  private static <T> T requireThere(Optional<T> found, long run) throws RecordsException {
    return found.orElseThrow(
        () -> new RecordsException(Kind.NOT_READ, "There is no run " + run + " in the records."));
  }

  @Override
  public void close() {
    reader.close();
    writer.close();
  }
}
