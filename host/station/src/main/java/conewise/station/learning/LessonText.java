package conewise.station.learning;

import conewise.analysis.learning.LearnedFigure;
import conewise.analysis.learning.LeftOut;
import conewise.analysis.learning.Lesson;
import conewise.analysis.outcome.Interval;
import conewise.station.card.Figures;
import conewise.station.planfile.PlannedBoxText;
import java.util.ArrayList;
import java.util.List;
import java.util.Locale;

/** A lesson for people, and the plan that it makes. */
public final class LessonText {
  /** From so many boxes on a limit is within about a third of what more would make it. */
  private static final int SMALL_SAMPLE = 20;

  private static final double LITRES = 1000;
  private static final int PERCENT = 100;

  private final Lesson lesson;

  private LessonText(Lesson lesson) {
    this.lesson = lesson;
  }

  /** What was learned, line by line. */
  public static List<String> lines(Lesson lesson) {
    return new LessonText(lesson).lines();
  }

  /** The plan's file: how it came about as comments, then the plan. */
  public static String plan(Lesson lesson) {
    StringBuilder text = new StringBuilder();
    for (String line : new LessonText(lesson).notes()) {
      text.append("# ").append(line).append('\n');
    }
    return text.append(PlannedBoxText.write(lesson.plan())).toString();
  }

  private List<String> lines() {
    List<String> lines = new ArrayList<>();
    lines.add(headline());
    lines.add("");
    lines.add(
        String.format(
            Locale.ROOT,
            "%-36s %5s %12s %8s %8s %8s   %s",
            "Figure",
            "boxes",
            "mean",
            "spread",
            "measured",
            "own",
            "99 % within"));
    lesson.figures().forEach(figure -> lines.add(row(figure)));
    lines.add("");
    lines.addAll(remarks());
    return lines;
  }

  private List<String> notes() {
    List<String> notes = new ArrayList<>();
    notes.add(headline());
    lesson.boxes().forEach(name -> notes.add("  from " + tame(name)));
    notes.addAll(remarks());
    return notes;
  }

  private String headline() {
    return String.format(
        Locale.ROOT,
        "Learned from %d boxes. Limits hold 99 %% of such boxes with a confidence of 95 %%.",
        lesson.boxes().size());
  }

  private List<String> remarks() {
    List<String> remarks = new ArrayList<>();
    int boxes = lesson.boxes().size();
    if (boxes < SMALL_SAMPLE) {
      remarks.add(
          String.format(
              Locale.ROOT,
              "%d boxes are few: the limits are wide (%.1f standard deviations; %d boxes would give"
                  + " %.1f). Learn again when there are more.",
              boxes,
              LearnedFigure.factorOf(boxes),
              SMALL_SAMPLE,
              LearnedFigure.factorOf(SMALL_SAMPLE)));
    }
    List<String> blurred =
        lesson.figures().stream()
            .filter(figure -> figure.ownSpread().isEmpty())
            .map(LearnedFigure::words)
            .toList();
    if (!blurred.isEmpty()) {
      remarks.add(
          "Measuring strays as much as the boxes do, or more, in: "
              + String.join(", ", blurred)
              + "; how alike they really are is not known.");
    }
    if (!lesson.notTold().isEmpty()) {
      remarks.add(
          "Not told by enough of the sweeps, so the base plan's own stands: "
              + String.join(", ", lesson.notTold())
              + ".");
    }
    for (LeftOut each : lesson.leftOut()) {
      remarks.add("LEFT OUT: " + tame(each.name()) + ": " + each.because() + ".");
    }
    return remarks;
  }

  private static String row(LearnedFigure figure) {
    boolean litres = figure.unit().equals("m3");
    double factor = litres ? LITRES : 1;
    Interval limits = figure.limits();
    String unit = litres ? " litres" : figure.unit().isEmpty() ? "" : " " + figure.unit();
    return String.format(
        Locale.ROOT,
        "%-36s %5d %12s %8s %8s %8s   %s to %s",
        figure.words(),
        figure.boxes(),
        Figures.plain(factor * figure.value()) + unit,
        percent(figure.spread()),
        percent(figure.uncertainty()),
        figure.ownSpread().isPresent() ? percent(figure.ownSpread().getAsDouble()) : "unknown",
        Figures.plain(factor * limits.low()),
        Figures.plain(factor * limits.high()));
  }

  private static String percent(double share) {
    return String.format(Locale.ROOT, "%.2g %%", PERCENT * share);
  }

  /** A file's name on one line. */
  private static String tame(String name) {
    return name.replaceAll("\\p{Cntrl}", "?");
  }
}
