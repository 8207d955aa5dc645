package conewise.station.rates;

import conewise.analysis.diagnosis.FaultKind;
import conewise.analysis.diagnosis.Rates;
import conewise.station.files.BadFileException;
import conewise.station.files.Nearest;
import conewise.station.files.Quoted;
import conewise.station.files.TextFile;
import conewise.station.keyedtext.KeyedText;
import conewise.station.keyedtext.Node;
import conewise.station.keyedtext.Problems;
import java.nio.file.Path;
import java.util.Comparator;
import java.util.EnumMap;
import java.util.LinkedHashMap;
import java.util.List;
import java.util.Locale;
import java.util.Map;
import java.util.Optional;
import java.util.stream.Collectors;

/** Rates of faults in a file, YAML or JSON; docs/file-formats.md describes it. */
public final class RatesFile {
  private static final long MOST_BYTES = 16L << 10;
  private static final String VERSION = "rates";

  private static final Map<String, FaultKind> KINDS =
      FaultKind.rated().stream()
          .collect(Collectors.toMap(FaultKind::id, kind -> kind, (a, b) -> a, LinkedHashMap::new));

  private static final KeyedText.Content CONTENT =
      new KeyedText.Content("set of rates", "rates: 1");

  private final String source;
  private final Problems problems;
  private final Map<FaultKind, Double> rates = new EnumMap<>(FaultKind.class);
  private final Map<FaultKind, Integer> lines = new EnumMap<>(FaultKind.class);

  private RatesFile(String source) {
    this.source = source;
    problems = new Problems(source);
  }

  /**
   * Reads rates from a file of at most 16 KiB.
   *
   * @throws BadFileException with every mistake of the file, each with its line
   */
  public static Rates read(Path file) throws BadFileException {
    return parse(file.toString(), TextFile.lines(file, MOST_BYTES));
  }

  /**
   * Reads rates from lines.
   *
   * @param source its name for people
   */
  static Rates parse(String source, List<String> lines) throws BadFileException {
    return new RatesFile(source).rates(lines);
  }

  private Rates rates(List<String> text) throws BadFileException {
    Map<String, Node.Entry> entries = entries(KeyedText.parse(CONTENT, source, text, problems));
    version(entries.get(VERSION));
    for (Map.Entry<String, Node.Entry> each : entries.entrySet()) {
      if (!each.getKey().equals(VERSION)) {
        rate(each.getKey(), each.getValue());
      }
    }
    problems.throwIfAny();
    refuseTooMuch();
    return new Rates(rates);
  }

  private Map<String, Node.Entry> entries(Node root) throws BadFileException {
    if (root instanceof Node.Mapping mapping) {
      return mapping.entries();
    }
    problems.add(
        root.line(),
        "the file is "
            + root.described()
            + "; write the version, rates: 1, and a fault and its rate on each line.");
    problems.throwIfAny();
    throw new IllegalStateException("a mistake was noted and not told");
  }

  private void version(Node.Entry entry) {
    if (entry == null) {
      problems.add(1, "rates is missing; add the version of the format: rates: 1.");
    } else if (!(entry.value() instanceof Node.Scalar value) || !value.text().equals("1")) {
      problems.add(
          entry.keyLine(),
          "rates is " + entry.value().described() + "; the version is 1: rates: 1.");
    }
  }

  private void rate(String key, Node.Entry entry) {
    FaultKind kind = KINDS.get(key);
    if (kind == null) {
      problems.add(
          entry.keyLine(),
          "the fault "
              + Quoted.of(key)
              + " is not known"
              + Nearest.to(key.toLowerCase(Locale.ROOT), KINDS.keySet())
                  .map(near -> "; " + near + " is near")
                  .orElse("")
              + "; allowed are "
              + String.join(", ", KINDS.keySet())
              + ".");
      return;
    }
    if (!(entry.value() instanceof Node.Scalar value)) {
      problems.add(
          entry.keyLine(),
          key + " is " + entry.value().described() + "; it must be a single value.");
      return;
    }
    Optional<Double> rate = RateWords.read(kind, value, problems);
    rate.ifPresent(
        each -> {
          rates.put(kind, each);
          lines.put(kind, entry.keyLine());
        });
  }

  /** With all rates together at 1 or more no box could be expected to be good. */
  private void refuseTooMuch() throws BadFileException {
    double sum = Rates.sum(rates);
    if (sum >= 1) {
      FaultKind most =
          rates.keySet().stream().max(Comparator.comparingDouble(rates::get)).orElseThrow();
      problems.add(
          lines.get(most),
          String.format(
              Locale.ROOT,
              "the rates of all faults, those left out at their usual ones, come to %.4g together;"
                  + " they must stay below 1: lower some, such as %s here.",
              sum,
              most.id()));
      problems.throwIfAny();
    }
  }
}
