package conewise.station.files;

import java.util.List;

/**
 * A file that cannot be read or written as what it should be. The message is made for people: for
 * each problem one sentence that says where, what was found, what is allowed and what to do;
 * several problems stand on lines of their own.
 */
public final class BadFileException extends Exception {

  private static final long serialVersionUID = 1L;

  private final List<String> problems;

  /** One problem, a full sentence that begins with the file's name. */
  public BadFileException(String problem) {
    this(List.of(problem));
  }

  /**
   * Several problems of one file.
   *
   * @param problems at least one full sentence, each beginning with the file's name
   */
  public BadFileException(List<String> problems) {
    super(String.join("\n", problems));
    if (problems.isEmpty()) {
      throw new IllegalArgumentException("a bad file has at least one problem; it had 0");
    }
    this.problems = List.copyOf(problems);
  }

  /** The problems, in the order in which they stand in the file. */
  public List<String> problems() {
    return problems;
  }
}
