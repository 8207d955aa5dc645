package conewise.station.keeping;

import conewise.analysis.impedance.ImpedanceCurve;
import conewise.analysis.outcome.Outcome;
import conewise.analysis.sampling.Capture;
import conewise.station.answer.JsonAnswer;
import conewise.station.card.JobCard;
import conewise.station.files.BadFileException;
import conewise.station.files.CaptureTable;
import conewise.station.files.Existing;
import conewise.station.files.ImpedanceTable;
import conewise.station.judging.Backdrops;
import conewise.station.judging.Judging;
import conewise.station.planfile.PlannedBoxFile;
import conewise.station.report.JobCardPage;
import java.io.IOException;
import java.nio.file.Path;
import java.util.List;
import java.util.Locale;

/** All that is to be kept of one run. */
public final class RunRecord {
  private final List<Capture> captures;
  private JobCard card;

  /**
   * A run.
   *
   * @param card what is said of the box
   * @param captures the raw records that it rests on
   */
  public RunRecord(JobCard card, List<Capture> captures) {
    this.card = card;
    this.captures = List.copyOf(captures);
  }

  /** The raw records that it rests on. */
  public List<Capture> captures() {
    return captures;
  }

  /** The card; once kept it bears the number of its attempt. */
  public JobCard card() {
    return card;
  }

  /**
   * Writes the run into a folder of its own: {@code plan.<ending>}, {@code capture-001.csv} and so
   * on, {@code curve.csv}, {@code job-card.html}, and {@code verdict.json} last.
   *
   * @param shelf where runs are kept
   * @param plan the plan's file, or the name of one that comes along; copied as it is
   * @return the folder
   * @throws IOException when any of it cannot be written
   */
  public Path keep(RunShelf shelf, Path plan) throws IOException {
    RunFolder folder = shelf.next(card.serial().orElseThrow());
    card = Judging.numbered(card, folder.attempt());
    folder.write("plan." + ending(plan), PlannedBoxFile.bytes(plan));
    try {
      for (int i = 0; i < captures.size(); i++) {
        String name = String.format(Locale.ROOT, "capture-%03d.csv", i + 1);
        CaptureTable.write(folder.path().resolve(name), captures.get(i), Existing.REFUSE);
      }
      if (card.measurement().curve() instanceof Outcome.Found<ImpedanceCurve> found) {
        ImpedanceTable.write(folder.path().resolve("curve.csv"), found.value(), Existing.REFUSE);
      }
    } catch (BadFileException e) {
      throw new IOException(e.getMessage(), e);
    }
    folder.write("job-card.html", JobCardPage.write(new Backdrops().behind(card)));
    folder.write("verdict.json", JsonAnswer.judged("check", card).toPrettyString());
    return folder.path();
  }

  private static String ending(Path plan) {
    String name = plan.getFileName().toString();
    String ending = name.substring(name.lastIndexOf('.') + 1).toLowerCase(Locale.ROOT);
    return ending.equals("json") ? "json" : "yaml";
  }
}
