package conewise.station.planfile;

import conewise.analysis.plan.PlannedBox;
import conewise.station.files.BadFileException;
import conewise.station.files.TextFile;
import conewise.station.keyedtext.KeyedText;
import conewise.station.keyedtext.Node;
import conewise.station.keyedtext.Problems;
import java.io.IOException;
import java.io.InputStream;
import java.io.UncheckedIOException;
import java.nio.charset.StandardCharsets;
import java.nio.file.Files;
import java.nio.file.Path;
import java.util.List;

/** A plan of a box in a file, YAML or JSON; docs/file-formats.md describes it. */
public final class PlannedBoxFile {

  /** The plans that come with the application. */
  public static final List<String> BUNDLED =
      List.of(
          "dipper", "gannet", "heron", "kestrel", "petrel", "plover", "siskin", "snipe", "teal",
          "wren");

  private static final KeyedText.Content CONTENT = new KeyedText.Content("plan", "plan: 2");

  /** Far more than any plan needs. */
  private static final long MOST_BYTES = 64L << 10;

  private PlannedBoxFile() {}

  /**
   * Reads a plan of at most 64 KiB. A bare name of a plan that comes with the application ({@link
   * #BUNDLED}) stands for it where there is no file of that name.
   *
   * @throws BadFileException with every mistake of the file, each with its line
   */
  public static PlannedBox read(Path file) throws BadFileException {
    return comesAlong(file)
        ? bundled(file.toString())
        : parse(file.toString(), TextFile.lines(file, MOST_BYTES));
  }

  /**
   * The bytes that {@link #read} reads.
   *
   * @throws IOException when the file cannot be read
   */
  public static byte[] bytes(Path file) throws IOException {
    if (!comesAlong(file)) {
      return Files.readAllBytes(file);
    }
    try (InputStream in = resource(file.toString())) {
      return in.readAllBytes();
    }
  }

  private static boolean comesAlong(Path file) {
    return BUNDLED.contains(file.toString()) && Files.notExists(file);
  }

  private static InputStream resource(String name) {
    return PlannedBoxFile.class.getResourceAsStream("/conewise/plans/" + name + ".yaml");
  }

  /**
   * Reads a plan that comes with the application.
   *
   * @param name its name without folder and ending, for example {@code heron}
   * @throws BadFileException when there is none of that name, or it has mistakes
   */
  public static PlannedBox bundled(String name) throws BadFileException {
    try (InputStream in = resource(name)) {
      if (in == null) {
        throw new BadFileException(
            "No plan of the name "
                + name
                + " comes with the application; allowed are "
                + String.join(", ", BUNDLED)
                + ".");
      }
      String text = new String(in.readAllBytes(), StandardCharsets.UTF_8);
      return parse(name + ".yaml", text.lines().toList());
    } catch (IOException e) {
      throw new UncheckedIOException("the application's own plan " + name + " is damaged", e);
    }
  }

  /**
   * Reads a plan from its text.
   *
   * @param source its name for people; the ending .json has it read as JSON
   * @param text as {@link #bytes} gives it
   * @throws BadFileException with every mistake, each with its line
   */
  public static PlannedBox ofText(String source, String text) throws BadFileException {
    return parse(source, text.lines().toList());
  }

  /**
   * Reads a plan from its lines.
   *
   * @param source its name for people; the ending .json has it read as JSON
   */
  static PlannedBox parse(String source, List<String> lines) throws BadFileException {
    Problems problems = new Problems(source);
    Node root = KeyedText.parse(CONTENT, source, lines, problems);
    return new PlannedBoxReader(problems).read(root);
  }
}
