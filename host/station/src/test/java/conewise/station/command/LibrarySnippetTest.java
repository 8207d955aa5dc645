package conewise.station.command;

import static org.junit.jupiter.api.Assertions.assertEquals;
import static org.junit.jupiter.api.Assertions.assertNotNull;
import static org.junit.jupiter.api.Assertions.assertTrue;

import java.io.ByteArrayOutputStream;
import java.io.PrintStream;
import java.net.URL;
import java.net.URLClassLoader;
import java.nio.charset.StandardCharsets;
import java.nio.file.Files;
import java.nio.file.Path;
import java.util.regex.Matcher;
import java.util.regex.Pattern;
import javax.tools.JavaCompiler;
import javax.tools.ToolProvider;
import org.junit.jupiter.api.Test;
import org.junit.jupiter.api.io.TempDir;
import org.junit.jupiter.api.parallel.Isolated;

/** The three lines of docs/model.md, compiled and run as they stand there. */
@Isolated
class LibrarySnippetTest {
  private static final Pattern SNIPPET =
      Pattern.compile("<!-- snippet: ([^>]*) -->\\n```java\\n(.*?)```", Pattern.DOTALL);
  private static final Pattern PRINTED =
      Pattern.compile(
          "Found\\[value=Estimate\\[value=(.*), interval=Interval\\[low=(.*), high=(.*)]]]");

  @TempDir Path folder;

  @Test
  void threeLinesPrintTheFittedTuningWithItsInterval() throws Exception {
    Matcher snippet = SNIPPET.matcher(Files.readString(Path.of("../../docs/model.md")));
    assertTrue(snippet.find(), "docs/model.md has no snippet");
    String lines = snippet.group(2);
    assertEquals(3, lines.lines().count(), lines);
    Path curve = folder.resolve("heron.csv");
    CommandRun sweep = CommandRun.of("sweep", "--virtual", "heron", "--out", curve.toString());
    assertEquals(0, sweep.exitCode(), sweep.err());
    Path plan =
        Files.copy(
            Path.of("src/main/resources/conewise/plans/heron.yaml"), folder.resolve("heron.yaml"));
    String placed =
        lines.replace("\"heron.csv\"", quoted(curve)).replace("\"heron.yaml\"", quoted(plan));
    Matcher printed = PRINTED.matcher(run(snippet.group(1), placed).trim());
    assertTrue(printed.matches(), placed);
    double tuning = Double.parseDouble(printed.group(1));
    // The world states 34.0 Hz.
    assertEquals(34.0, tuning, 0.01 * 34);
    assertTrue(
        Double.parseDouble(printed.group(2)) <= 34 && 34 <= Double.parseDouble(printed.group(3)));
    Matcher shown = PRINTED.matcher(Files.readString(Path.of("../../docs/model.md")));
    assertTrue(shown.find(), "docs/model.md shows what is printed");
    assertEquals(tuning, Double.parseDouble(shown.group(1)), 0.3, "as the document shows it");
  }

  private static String quoted(Path path) {
    return '"' + path.toString().replace("\\", "\\\\") + '"';
  }

  private String run(String imports, String lines) throws Exception {
    StringBuilder source = new StringBuilder();
    for (String each : imports.split(" ", -1)) {
      source.append("import ").append(each).append(";\n");
    }
    source.append("public class Snippet { public static void run() throws Exception {\n");
    source.append(lines).append("}}\n");
    Path file = Files.writeString(folder.resolve("Snippet.java"), source);
    JavaCompiler compiler = ToolProvider.getSystemJavaCompiler();
    assertNotNull(compiler, "the tests run on a JDK");
    ByteArrayOutputStream errors = new ByteArrayOutputStream();
    int result =
        compiler.run(
            null,
            null,
            errors,
            "-proc:none",
            "-cp",
            System.getProperty("java.class.path"),
            "-d",
            folder.toString(),
            file.toString());
    assertEquals(0, result, errors.toString(StandardCharsets.UTF_8));
    PrintStream before = System.out;
    ByteArrayOutputStream out = new ByteArrayOutputStream();
    try (URLClassLoader loader =
        new URLClassLoader(new URL[] {folder.toUri().toURL()}, getClass().getClassLoader())) {
      System.setOut(new PrintStream(out, true, StandardCharsets.UTF_8));
      loader.loadClass("Snippet").getMethod("run").invoke(null);
    } finally {
      System.setOut(before);
    }
    return out.toString(StandardCharsets.UTF_8);
  }
}
