package conewise.station.lab;

import static org.junit.jupiter.api.Assertions.assertEquals;
import static org.junit.jupiter.api.Assertions.assertTrue;

import conewise.station.command.CommandRun;
import java.io.IOException;
import java.nio.file.Files;
import java.nio.file.Path;
import java.security.MessageDigest;
import java.util.ArrayList;
import java.util.HashSet;
import java.util.HexFormat;
import java.util.List;
import java.util.Locale;
import java.util.Map;
import java.util.Set;
import java.util.regex.Matcher;
import java.util.regex.Pattern;
import java.util.stream.Stream;
import org.apache.commons.math3.complex.Complex;
import org.junit.jupiter.api.BeforeAll;
import org.junit.jupiter.api.Test;
import org.junit.jupiter.api.TestInstance;
import org.junit.jupiter.api.io.TempDir;

/**
 * The pages of docs/lab: their commands are run as they stand, what they print is what the pages
 * show, and the data sets that they make are solved, worked out by hand and held to one digest.
 */
@TestInstance(TestInstance.Lifecycle.PER_CLASS)
class LabPagesTest {
  private static final Path ROOT = Path.of("..", "..");
  private static final Pattern COMMANDS =
      Pattern.compile("<!-- run by: LabPagesTest -->\\n```\\n(.*?)```", Pattern.DOTALL);
  private static final Pattern PRINTED =
      Pattern.compile(
          "<!-- run by: LabPagesTest; printed by: (.*?) -->\\n```text\\n(.*?)```", Pattern.DOTALL);
  private static final Student STUDENT = Student.of(17);

  /**
   * Of all that student 17's data hold. A change of what is drawn, of the simulator's physics or of
   * the virtual jig changes it, and with it every data set that a course has in use.
   */
  private static final String DIGEST =
      "c396e846bb2703c212bb2d3e6d2c59fe3d48194d3d3700789eb9b2d2da1314b5";

  @TempDir static Path folder;

  @BeforeAll
  void thePagesCommandsRun() throws IOException {
    Set<String> swept = new HashSet<>();
    for (Experiment each : Experiment.values()) {
      Path place = Files.createDirectories(folder.resolve(each.word()));
      Matcher block = COMMANDS.matcher(page(each));
      assertTrue(block.find(), each.word() + ".md has no commands");
      for (String line : block.group(1).lines().toList()) {
        if (line.startsWith("./conewise sweep") && !swept.add(line)) {
          // The same sweep of the same world stands on another page and has run.
          continue;
        }
        CommandRun run = run(line, place);
        assertEquals(0, run.exitCode(), line + ": " + run.err());
      }
    }
  }

  private static String page(Experiment experiment) throws IOException {
    return Files.readString(ROOT.resolve("docs/lab/" + experiment.word() + ".md"));
  }

  private CommandRun run(String line, Path place) {
    assertTrue(line.startsWith("./conewise "), line);
    List<String> words = new ArrayList<>();
    for (String word : line.substring("./conewise ".length()).split(" +", -1)) {
      boolean out = !words.isEmpty() && words.get(words.size() - 1).equals("--out");
      words.add(out ? place.resolve(word).toString() : placed(word, place));
    }
    return CommandRun.of(words.toArray(String[]::new));
  }

  private static String placed(String word, Path place) {
    if (word.startsWith("docs/")) {
      return ROOT.resolve(word).toString();
    }
    int sign = word.indexOf('=');
    boolean file = word.matches(".*\\.(csv|json|yaml|html)");
    return file ? word.substring(0, sign + 1) + place.resolve(word.substring(sign + 1)) : word;
  }

  @Test
  void whatThePagesShowIsWhatTheProgramPrints() throws IOException {
    int shown = 0;
    for (Experiment each : Experiment.values()) {
      Matcher block = PRINTED.matcher(page(each));
      while (block.find()) {
        CommandRun run = run(block.group(1), folder.resolve(each.word()));
        assertEquals(block.group(2), run.out(), each.word() + ".md: " + block.group(1));
        shown++;
      }
    }
    assertTrue(shown >= Experiment.values().length, shown + " blocks");
  }

  @Test
  void theProgramsImpedanceIsThatOfASpreadsheet() throws IOException {
    for (Experiment each : Experiment.values()) {
      Path file = data(each).resolve(each.word()).resolve("tone.csv");
      String printed = run("./conewise lab sums lab/" + each.word() + "/tone.csv", each).out();
      Complex byHand = byHand(Files.readAllLines(file));
      String expected =
          String.format(
              Locale.ROOT, "%.4f ohm and %.4f ohm", byHand.getReal(), byHand.getImaginary());
      assertTrue(printed.contains("least squares: " + expected), expected + "\n" + printed);
      assertTrue(
          printed.contains(
              String.format(Locale.ROOT, "  resistance               %11.4f", byHand.getReal())),
          printed);
      // Noise and bend of the converter are all that parts it from the equations of motion.
      Assignment assignment = Assignments.of(STUDENT, List.of(each)).all().get(0);
      Complex truth =
          SimulatedImpedance.of(assignment.measured().get(0).box()).at(assignment.tone().hz(64e-6));
      assertEquals(0, byHand.subtract(truth).abs() / truth.abs(), 0.01, each.word());
    }
  }

  private CommandRun run(String line, Experiment experiment) {
    return run(line, folder.resolve(experiment.word()));
  }

  /**
   * The sums once more, apart from the program: the first harmonic of a record of one period
   * (Fourier), the current's turned back by the time that it was sampled late.
   */
  private static Complex byHand(List<String> lines) {
    double rate = 0;
    double delay = 0;
    List<double[]> rows = new ArrayList<>();
    for (String line : lines) {
      if (line.startsWith("# sample_rate_hz: ")) {
        rate = Double.parseDouble(line.substring(18));
      } else if (line.startsWith("# current_delay_s: ")) {
        delay = Double.parseDouble(line.substring(19));
      } else if (line.matches("-?[0-9].*")) {
        String[] cells = line.split(",", -1);
        rows.add(new double[] {Double.parseDouble(cells[0]), Double.parseDouble(cells[1])});
      }
    }
    assertEquals(16, rows.size());
    Complex turn = new Complex(0, -2 * Math.PI / rows.size()).exp();
    Complex voltage = Complex.ZERO;
    Complex current = Complex.ZERO;
    Complex place = Complex.ONE;
    for (double[] row : rows) {
      voltage = voltage.add(place.multiply(row[0]));
      current = current.add(place.multiply(row[1]));
      place = place.multiply(turn);
    }
    double hz = rate / rows.size();
    return voltage.divide(current).multiply(new Complex(0, 2 * Math.PI * hz * delay).exp());
  }

  private Path data(Experiment experiment) {
    return folder.resolve(experiment.word()).resolve("lab");
  }

  @Test
  void theProjectsOwnFitSolvesEveryDataSet() throws Exception {
    StringBuilder answers = new StringBuilder("question,value,unit\n");
    for (Experiment each : Experiment.values()) {
      String solved = new SolvedByFit(data(each)).answers(List.of(each));
      answers.append(solved.substring(solved.indexOf('\n') + 1));
    }
    Path file = folder.resolve("solved.csv");
    Files.writeString(file, answers);
    Marking marking = Marking.of(file, STUDENT);
    assertEquals(marking.marks().size(), marking.right(), String.join("\n", marking.lines()));
    // Another student's key fits neither these data nor these answers.
    assertTrue(
        Marking.of(file, Student.of(18)).right() < marking.marks().size() / 2 + 5, "18 as 17");
  }

  @Test
  void theProjectsOwnFitSolvesOtherStudentsDataToo() throws Exception {
    Map<Long, List<Experiment>> trials =
        Map.of(
            2L, List.of(Experiment.CLOSED_BOX),
            123_456_789L, List.of(Experiment.VENTED_BOX));
    for (Map.Entry<Long, List<Experiment>> each : trials.entrySet()) {
      String number = each.getKey().toString();
      Path out = folder.resolve("student-" + number);
      List<String> words =
          new ArrayList<>(List.of("lab", "make", "--student", number, "--out", out.toString()));
      each.getValue().forEach(one -> words.addAll(List.of("--experiment", one.word())));
      CommandRun made = CommandRun.of(words.toArray(String[]::new));
      assertEquals(0, made.exitCode(), made.err());
      Path file = out.resolve("solved.csv");
      Files.writeString(file, new SolvedByFit(out).answers(each.getValue()));
      CommandRun marked = CommandRun.of("lab", "mark", file.toString(), "--student", number);
      assertEquals(0, marked.exitCode(), marked.out() + marked.err());
    }
  }

  @Test
  void theSameNumberGivesTheSameBytes() throws Exception {
    Path again = folder.resolve("again");
    CommandRun run =
        CommandRun.of(
            "lab", "make", "--student", "17", "--experiment", "voice-coil", "--out", "" + again);
    assertEquals(0, run.exitCode(), run.err());
    assertEquals(digest(List.of(data(Experiment.VOICE_COIL))), digest(List.of(again)));
    List<Path> all = new ArrayList<>();
    for (Experiment each : Experiment.values()) {
      all.add(data(each));
    }
    assertEquals(DIGEST, digest(all));
  }

  /** Of names and bytes, in the order of the names. */
  private static String digest(List<Path> folders) throws Exception {
    MessageDigest digest = MessageDigest.getInstance("SHA-256");
    for (Path each : folders) {
      try (Stream<Path> files = Files.walk(each)) {
        for (Path file : files.filter(Files::isRegularFile).sorted().toList()) {
          String name = each.relativize(file).toString().replace('\\', '/');
          if (!name.equals("solved.csv")) {
            digest.update(name.getBytes(java.nio.charset.StandardCharsets.UTF_8));
            digest.update(Files.readAllBytes(file));
          }
        }
      }
    }
    return HexFormat.of().formatHex(digest.digest());
  }
}
