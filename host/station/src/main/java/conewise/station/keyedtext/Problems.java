package conewise.station.keyedtext;

import conewise.station.files.BadFileException;
import java.util.ArrayList;
import java.util.Comparator;
import java.util.List;

/** Gathers the mistakes of a file, to be told all at once in the order of their lines. */
public final class Problems {

  /** More are cut off: by then the file is something else. */
  private static final int MOST = 50;

  private record Problem(int line, String sentence) {}

  private final String source;
  private final List<Problem> found = new ArrayList<>();

  /** Of a file, by its name for people. */
  public Problems(String source) {
    this.source = source;
  }

  /** Notes one, with its line from 1. */
  public void add(int line, String problem) {
    if (found.size() < MOST) {
      found.add(new Problem(line, source + ", line " + line + ": " + problem));
    }
  }

  /** How many were found so far. */
  public int count() {
    return found.size();
  }

  /** Tells them, if there are any. */
  public void throwIfAny() throws BadFileException {
    if (!found.isEmpty()) {
      throw new BadFileException(
          found.stream()
              .sorted(Comparator.comparingInt(Problem::line))
              .map(Problem::sentence)
              .toList());
    }
  }
}
