package conewise.benchmarks;

import conewise.analysis.excitation.Comb;
import java.io.IOException;
import java.util.Collection;
import java.util.Locale;
import java.util.Map;
import java.util.TreeMap;
import org.openjdk.jmh.results.RunResult;
import org.openjdk.jmh.runner.Runner;
import org.openjdk.jmh.runner.RunnerException;
import org.openjdk.jmh.runner.options.Options;
import org.openjdk.jmh.runner.options.OptionsBuilder;

/** Runs every benchmark, NumPy and SciPy on the same tasks, and prints both beside the limits. */
public final class Report {

  private Report() {}

  /**
   * Runs and prints.
   *
   * @param arguments none
   * @throws RunnerException when a benchmark cannot run
   * @throws IOException when the reference's script cannot be written
   * @throws InterruptedException when interrupted while the reference runs
   */
  public static void main(String[] arguments)
      throws RunnerException, IOException, InterruptedException {
    Map<String, Double> ours = run(AnalysisBenchmark.class);
    Map<String, Double> model = run(ModelBenchmark.class);
    Map<String, Double> fits = run(FitBenchmark.class);
    Map<String, Double> verdicts = run(VerdictBenchmark.class);
    Map<String, Double> reference = NumpyReference.microseconds();
    double memory = Limits.memoryBytesPerMicrosecond();
    double arithmetic = Limits.multiplyAddsPerMicrosecond();
    System.out.printf(
        Locale.ROOT,
        "%none core, plain Java: memory is read at %.1f GB/s, %.2f G multiply-adds/s%n",
        memory / 1e3,
        arithmetic / 1e3);
    for (Map.Entry<String, Double> task : ours.entrySet()) {
      print(task.getKey(), task.getValue(), reference, memory, arithmetic);
    }
    printModel(model, arithmetic);
    printFits(fits, reference);
    printVerdict(verdicts, "oneDriver");
    printVerdict(verdicts, "twoDrivers");
    printVerdict(verdicts, "fourDrivers");
    printHypotheses();
  }

  private static void printVerdict(Map<String, Double> verdicts, String task) {
    System.out.printf(
        Locale.ROOT, "%-14s %10.1f ms for a whole verdict%n", task, verdicts.get(task) / 1e3);
  }

  /** The limit beside each: one fit of each hypothesis, however well begun. */
  private static void printHypotheses() throws RunnerException {
    Options options = new OptionsBuilder().include(HypothesesBenchmark.class.getName()).build();
    for (RunResult result : new Runner(options).run()) {
      double milliseconds = result.getPrimaryResult().getScore();
      double hypotheses = result.getSecondaryResults().get("hypotheses").getScore();
      System.out.printf(
          Locale.ROOT,
          "%s drivers, %3s %% of the faults: %3.0f hypotheses and pairs of them weighed in"
              + " %6.1f ms, %.1f ms each%n",
          result.getParams().getParam("drivers"),
          result.getParams().getParam("percent"),
          hypotheses,
          milliseconds,
          milliseconds / hypotheses);
    }
  }

  private static void printFits(Map<String, Double> fits, Map<String, Double> reference) {
    System.out.printf(Locale.ROOT, "a vented box of two drivers, %d points%n", FitBenchmark.POINTS);
    for (Map.Entry<String, Double> task : fits.entrySet()) {
      System.out.printf(
          Locale.ROOT,
          "%-14s %10.1f us; %s%n",
          task.getKey(),
          task.getValue(),
          reference.containsKey(task.getKey())
              ? String.format(
                  Locale.ROOT,
                  "NumPy/SciPy %.1f us, %.2f times ours",
                  reference.get(task.getKey()),
                  reference.get(task.getKey()) / task.getValue())
              : "NumPy/SciPy not installed");
    }
  }

  private static Map<String, Double> run(Class<?> benchmarks) throws RunnerException {
    Options options = new OptionsBuilder().include(benchmarks.getName()).build();
    Collection<RunResult> results = new Runner(options).run();
    Map<String, Double> scores = new TreeMap<>();
    for (RunResult result : results) {
      scores.put(result.getPrimaryResult().getLabel(), result.getPrimaryResult().getScore());
    }
    return scores;
  }

  /** Eliminating n unknowns takes n^3 / 3 complex multiply-adds, of four real ones each. */
  private static void printModel(Map<String, Double> model, double arithmetic) {
    double n = ModelBenchmark.UNKNOWNS;
    System.out.printf(
        Locale.ROOT,
        "a box of four dual-coil drivers, one frequency: eliminating %.0f unknowns alone %.3f us%n",
        n,
        4 * n * n * n / 3 / arithmetic);
    double own = model.get("impedance");
    for (Map.Entry<String, Double> task : model.entrySet()) {
      System.out.printf(
          Locale.ROOT,
          "%-26s %8.2f us, %5.1f times the impedance alone%n",
          task.getKey(),
          task.getValue(),
          task.getValue() / own);
    }
  }

  private static void print(
      String task, double own, Map<String, Double> reference, double memory, double arithmetic) {
    boolean isNoise = task.equals("minuteOfNoise");
    double pairs = isNoise ? AnalysisBenchmark.SPECTRUM_PAIRS : AnalysisBenchmark.PAIRS;
    System.out.printf(
        Locale.ROOT,
        "%-14s %10.1f us, %7.2f million pairs/s; reading the pairs alone %.1f us%s; %s%n",
        task,
        own,
        pairs / own,
        16 * pairs / memory,
        isNoise ? "" : projections(task, pairs, arithmetic),
        reference.containsKey(task)
            ? String.format(
                Locale.ROOT,
                "NumPy/SciPy %.1f us, %.2f times ours",
                reference.get(task),
                reference.get(task) / own)
            : "NumPy/SciPy not installed");
  }

  /** Projecting onto cosine and sine in both channels takes four multiply-adds a pair and tone. */
  private static String projections(String task, double pairs, double arithmetic) {
    int tones = task.equals("comb") ? Comb.standard().lines().size() : 1;
    return String.format(Locale.ROOT, ", projecting alone %.1f us", 4 * tones * pairs / arithmetic);
  }
}
