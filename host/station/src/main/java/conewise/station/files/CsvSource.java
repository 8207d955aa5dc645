package conewise.station.files;

import java.util.ArrayList;
import java.util.HashMap;
import java.util.List;
import java.util.Locale;
import java.util.Map;
import java.util.OptionalDouble;

/**
 * The rows of a CSV file with one header line and {@code #} comments: comma between the columns,
 * point in the decimals, columns in any order.
 */
final class CsvSource {

  /** Hears each comment, without its {@code #}. */
  @FunctionalInterface
  interface Comments {
    void comment(TextSource source, String text) throws BadFileException;
  }

  private final TextSource source;
  private final List<String> required;
  private final List<String> optional;
  private final Comments comments;
  private final Map<String, Integer> places = new HashMap<>();
  private String[] cells = {};

  CsvSource(TextSource source, List<String> required, List<String> optional, Comments comments) {
    this.source = source;
    this.required = required;
    this.optional = optional;
    this.comments = comments;
  }

  /** Reads up to the header and takes it in. */
  void readHeader() throws BadFileException {
    if (!advance()) {
      throw source.badFile("there is no header line; the first line must name " + wanted() + ".");
    }
    cells = split();
    refuseOtherSeparators("the header");
    refuseMissingHeader();
    for (int i = 0; i < cells.length; i++) {
      place(cells[i].toLowerCase(Locale.ROOT), i);
    }
    for (String name : required) {
      if (!places.containsKey(name)) {
        throw source.bad(
            "the header lacks the column " + name + "; it must name " + wanted() + ".");
      }
    }
  }

  /** Goes to the next row of numbers; false at the end of the file. */
  boolean nextRow() throws BadFileException {
    if (!advance()) {
      return false;
    }
    cells = split();
    refuseOtherSeparators("the row");
    if (cells.length != places.size()) {
      String hint =
          cells.length == 2 * places.size()
              ? "; decimals need a point, not a comma"
              : "; fill in or take away";
      throw source.bad(
          "the row has " + cells.length + " values and the header " + places.size() + hint + ".");
    }
    return true;
  }

  boolean has(String column) {
    return places.containsKey(column);
  }

  /** The number in a column of the row; an empty cell is refused. */
  double number(String column) throws BadFileException {
    String text = cells[places.get(column)];
    OptionalDouble number = NumberText.parse(text);
    if (number.isEmpty()) {
      throw source.bad(
          column, "found " + Quoted.of(text) + "; allowed is " + NumberText.ALLOWED + ".");
    }
    return number.getAsDouble();
  }

  boolean isEmpty(String column) {
    return cells[places.get(column)].isEmpty();
  }

  private boolean advance() throws BadFileException {
    while (source.advance()) {
      String line = source.line().stripLeading();
      if (line.startsWith("#")) {
        comments.comment(source, line.substring(1).strip());
      } else if (!line.isEmpty()) {
        return true;
      }
    }
    return false;
  }

  private String[] split() {
    List<String> parts = new ArrayList<>();
    for (String part : source.line().split(",", -1)) {
      String cell = part.strip();
      boolean quoted = cell.length() >= 2 && cell.startsWith("\"") && cell.endsWith("\"");
      parts.add(quoted ? cell.substring(1, cell.length() - 1).strip() : cell);
    }
    return parts.toArray(String[]::new);
  }

  private void refuseOtherSeparators(String what) throws BadFileException {
    for (String separator : List.of(";", "\t")) {
      if (source.line().contains(separator)) {
        throw source.bad(
            what
                + " is separated by "
                + (separator.equals(";") ? "semicolons" : "tabs")
                + "; export it with commas between the columns and a point in the decimals.");
      }
    }
  }

  private void refuseMissingHeader() throws BadFileException {
    if (NumberText.parse(cells[0]).isPresent()) {
      throw source.bad(
          "a row of numbers stands where the header should; put a line above it that names "
              + wanted()
              + ".");
    }
  }

  private void place(String name, int index) throws BadFileException {
    if (!required.contains(name) && !optional.contains(name)) {
      List<String> allowed = new ArrayList<>(required);
      allowed.addAll(optional);
      String hint = Nearest.to(name, allowed).map(near -> "; " + near + " is near").orElse("");
      throw source.bad(
          "the header names the column "
              + Quoted.of(name)
              + hint
              + "; allowed are "
              + wanted()
              + ".");
    }
    if (places.put(name, index) != null) {
      throw source.bad("the header names the column " + name + " twice; name it once.");
    }
  }

  private String wanted() {
    String all = String.join(",", required);
    return optional.isEmpty() ? all : all + " and, if known, " + String.join(",", optional);
  }
}
