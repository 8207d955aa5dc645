package conewise.station.documents;

import conewise.station.command.CommandRun;
import conewise.station.command.KnownCommands;
import java.io.IOException;
import java.nio.file.Files;
import java.nio.file.Path;
import java.util.ArrayList;
import java.util.HashMap;
import java.util.List;
import java.util.Map;
import java.util.Optional;
import java.util.regex.Matcher;
import java.util.regex.Pattern;

/**
 * Runs one page from its top to its end in this process's working folder, which holds the
 * repository's folders as links. The marks that a block may have are told in DEVELOPERS.md.
 */
final class PageRun {
  private static final Pattern INLINE = Pattern.compile("`\\./conewise ([^`]+)`");

  /** Names, dates and times of the run itself, which no page can foresee. */
  private static final Pattern OF_THE_RUN =
      Pattern.compile("CAL-\\d{12}|\\d{1,2} [A-Z][a-z]{2} \\d{4}(, \\d\\d:\\d\\d:\\d\\d \\S+)?");

  private static final Pattern DRAWING = Pattern.compile("<svg.*?</svg>", Pattern.DOTALL);

  private final Path root;
  private final String place;
  private final List<String> page;
  private final List<String> mistakes = new ArrayList<>();
  private final Map<Integer, List<String>> changes = new HashMap<>();
  private final Map<String, String> pictures = new HashMap<>();
  private int commands;

  PageRun(Path root, String place) throws IOException {
    this.root = root;
    this.place = place;
    this.page = Files.readAllLines(root.resolve(place));
  }

  List<String> mistakes() {
    return mistakes;
  }

  int commands() {
    return commands;
  }

  void run() throws IOException {
    for (PageBlock block : PageBlock.of(page)) {
      if (block.marked("run by: (\\w+).*").isPresent()) {
        runElsewhere(block.marked("run by: (\\w+).*").get().group(1));
      } else if (block.marked("not run: .+").isPresent()) {
        block.lines().forEach(this::lookOnly);
      } else {
        runHere(block);
      }
    }
    Matcher inline = INLINE.matcher(String.join("\n", page));
    while (inline.find()) {
      lookOnly("./conewise " + inline.group(1).replace('\n', ' '));
    }
  }

  /** The test that a block names is there, and knows of the page. */
  private void runElsewhere(String test) throws IOException {
    try (var files = Files.walk(root.resolve("host/station/src/test/java"))) {
      Path file =
          files
              .filter(each -> each.endsWith(test + ".java"))
              .findFirst()
              .orElse(root.resolve("none"));
      String folder = place.substring(0, place.lastIndexOf('/') + 1);
      if (!Files.exists(file)) {
        mistakes.add(place + ": there is no test " + test);
      } else if (!Files.readString(file).contains(place)
          && !Files.readString(file).contains("\"" + folder)) {
        mistakes.add(place + ": the test " + test + " does not name this page");
      }
    }
  }

  private void lookOnly(String line) {
    List<String> words = TypedLine.words(line);
    if (!words.isEmpty() && words.get(0).equals("./conewise") && !words.contains("...")) {
      KnownCommands.mistake(words.subList(1, words.size()))
          .ifPresent(mistake -> mistakes.add(place + ": " + line + ": " + mistake));
    }
  }

  private void runHere(PageBlock block) throws IOException {
    for (String line : block.before()) {
      typed(line, 0);
    }
    Optional<Matcher> printed = block.marked("(?:lines (\\d+) to (\\d+) )?printed by: (.*)");
    Optional<Matcher> shown = block.marked("(?:lines (\\d+) to (\\d+) )?of: (.*)");
    Optional<Matcher> picture = block.marked("drawing (\\d+) of: (.*)");
    Optional<Matcher> file = block.marked("file: (\\S+)");
    if (file.isPresent()) {
      Files.write(Path.of(file.get().group(1)), block.lines());
    } else if (printed.isPresent()) {
      String out = typed(printed.get().group(3), exitCode(block, 0));
      hold(block, part(printed.get(), out.lines().toList()));
    } else if (shown.isPresent()) {
      hold(block, part(shown.get(), Files.readAllLines(Path.of(shown.get().group(3)))));
    } else if (picture.isPresent()) {
      holdPicture(block, picture.get());
    } else if (block.hasCommands()) {
      int at = 0;
      for (String line : block.lines()) {
        if (!line.isBlank()) {
          typed(line, exitCode(block, at++));
        }
      }
    }
  }

  /** One exit code for all commands of a block, or one for each; 0 where none is marked. */
  private static int exitCode(PageBlock block, int at) {
    Optional<Matcher> marked = block.marked("exit: ([0-9 ]+)");
    if (marked.isEmpty()) {
      return 0;
    }
    String[] codes = marked.get().group(1).split(" ", -1);
    return Integer.parseInt(codes[Math.min(at, codes.length - 1)]);
  }

  private static List<String> part(Matcher lines, List<String> all) {
    if (lines.group(1) == null) {
      return all;
    }
    int end = Math.min(all.size(), Integer.parseInt(lines.group(2)));
    return all.subList(Math.min(end, Integer.parseInt(lines.group(1)) - 1), end);
  }

  private String typed(String line, int exitCode) throws IOException {
    List<String> words = TypedLine.words(line);
    if (words.get(0).equals("cp") && words.size() == 3) {
      Files.createDirectories(Path.of(words.get(2)).toAbsolutePath().getParent());
      Files.copy(Path.of(words.get(1)), Path.of(words.get(2)));
      return "";
    }
    if (!words.get(0).equals("./conewise")) {
      mistakes.add(place + ": " + line + ": is neither run nor marked \"not run: why\"");
      return "";
    }
    String into = "";
    if (words.size() > 2 && words.get(words.size() - 2).equals(">")) {
      into = words.get(words.size() - 1);
      words = words.subList(0, words.size() - 2);
    }
    commands++;
    long start = System.nanoTime();
    CommandRun run = CommandRun.of(words.subList(1, words.size()).toArray(String[]::new));
    System.out.printf("%6d ms  %s: %s%n", (System.nanoTime() - start) / 1_000_000, place, line);
    if (run.exitCode() != exitCode) {
      mistakes.add(
          "%s: %s: ended with %d, not %d. %s%s"
              .formatted(place, line, run.exitCode(), exitCode, run.err(), run.out()));
    }
    if (!into.isEmpty()) {
      Files.writeString(Path.of(into), run.out());
    }
    return run.out();
  }

  private void hold(PageBlock block, List<String> expected) {
    if (!masked(block.lines()).equals(masked(expected))) {
      mistakes.add(
          "%s: the block under \"%s\" is stale; it should be:%n%s"
              .formatted(place, block.marks(), String.join("\n", expected)));
      changes.put(block.first(), expected);
    }
  }

  private static String masked(List<String> lines) {
    return OF_THE_RUN.matcher(String.join("\n", lines)).replaceAll("~");
  }

  private void holdPicture(PageBlock block, Matcher mark) throws IOException {
    String html = Files.readString(Path.of(mark.group(2)));
    Matcher drawing = DRAWING.matcher(html);
    for (int i = 0; i < Integer.parseInt(mark.group(1)); i++) {
      if (!drawing.find()) {
        mistakes.add(
            place + ": " + mark.group(2) + " has fewer than " + mark.group(1) + " drawings");
        return;
      }
    }
    String file = block.lines().get(0).replaceFirst("^!\\[.*\\]\\((.*)\\)$", "$1");
    Path there = root.resolve(place).getParent().resolve(file).normalize();
    String svg = StandaloneDrawing.of(drawing.group(), html);
    if (!Files.exists(there) || !StandaloneDrawing.same(Files.readString(there), svg)) {
      mistakes.add(place + ": the picture " + file + " is stale");
      pictures.put(there.toString(), svg);
    }
  }

  /** Puts what the program answered in the place of what was stale. */
  void write() throws IOException {
    List<String> text = new ArrayList<>();
    int next = 0;
    for (PageBlock block : PageBlock.of(page)) {
      text.addAll(page.subList(next, block.first()));
      text.addAll(changes.getOrDefault(block.first(), block.lines()));
      next = block.end();
    }
    text.addAll(page.subList(next, page.size()));
    if (!changes.isEmpty()) {
      Files.writeString(root.resolve(place), String.join("\n", text) + "\n");
    }
    for (Map.Entry<String, String> each : pictures.entrySet()) {
      Files.writeString(Path.of(each.getKey()), each.getValue());
    }
  }
}
