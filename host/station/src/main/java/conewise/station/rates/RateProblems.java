package conewise.station.rates;

import conewise.station.files.BadFileException;
import java.util.ArrayList;
import java.util.Comparator;
import java.util.List;

/** Gathers the mistakes of a file of rates, to be told all at once in the order of their lines. */
final class RateProblems {
  /** More are cut off: by then the file is something else. */
  private static final int MOST = 50;

  private record Problem(int line, String sentence) {}

  private final String source;
  private final List<Problem> found = new ArrayList<>();

  RateProblems(String source) {
    this.source = source;
  }

  void add(int line, String problem) {
    if (found.size() < MOST) {
      found.add(new Problem(line, source + ", line " + line + ": " + problem));
    }
  }

  void throwIfAny() throws BadFileException {
    if (!found.isEmpty()) {
      throw new BadFileException(
          found.stream()
              .sorted(Comparator.comparingInt(Problem::line))
              .map(Problem::sentence)
              .toList());
    }
  }
}
