package conewise.station.command;

import static org.junit.jupiter.api.Assertions.assertEquals;
import static org.junit.jupiter.api.Assertions.assertFalse;
import static org.junit.jupiter.api.Assertions.assertTrue;

import com.fasterxml.jackson.databind.JsonNode;
import com.fasterxml.jackson.databind.ObjectMapper;
import conewise.simulator.jig.JigSetup;
import conewise.simulator.jig.VirtualJig;
import conewise.simulator.link.LoopbackServer;
import conewise.simulator.link.StreamServer;
import conewise.simulator.world.DemoWorld;
import conewise.simulator.world.World;
import conewise.station.answer.SchemaCheck;
import java.io.ByteArrayInputStream;
import java.io.IOException;
import java.io.InputStream;
import java.io.UncheckedIOException;
import java.nio.charset.StandardCharsets;
import java.nio.file.Files;
import java.nio.file.Path;
import java.util.ArrayList;
import java.util.Arrays;
import java.util.List;
import org.junit.jupiter.api.BeforeEach;
import org.junit.jupiter.api.Test;
import org.junit.jupiter.api.io.TempDir;
import org.junit.jupiter.api.parallel.Isolated;
import org.junit.jupiter.params.ParameterizedTest;
import org.junit.jupiter.params.provider.CsvSource;

/** The pop test from the command line to the verdict, on virtual jigs whose truth is known. */
@Isolated
class PopCommandTest {
  @TempDir Path folder;
  private Path plan;

  @BeforeEach
  void layOutThePlan() throws IOException {
    plan = copy(PLAN, text -> text);
  }

  private static final String PLAN = "plans/plover.yaml";

  private interface Change {
    String of(String text);
  }

  private Path copy(String resource, Change change) throws IOException {
    try (InputStream in = PopCommandTest.class.getResourceAsStream("/conewise/" + resource)) {
      String text = new String(in.readAllBytes(), StandardCharsets.UTF_8);
      Path file = folder.resolve(resource);
      Files.createDirectories(file.getParent());
      return Files.writeString(file, change.of(text));
    }
  }

  /** The built-in box of two drivers in spaces of their own, wired as told, with its jig. */
  private String plover(String wiring, String jig) throws IOException {
    Path world =
        copy(
            "worlds/plover.yaml",
            text ->
                text.replace("left, right reversed", wiring)
                    .replace("preset: typical", "preset: typical" + jig));
    return world.toString();
  }

  private CommandRun pop(String... more) {
    List<String> all = new ArrayList<>(List.of("pop", "--plan", plan.toString()));
    all.addAll(Arrays.asList(more));
    return CommandRun.of(all.toArray(String[]::new));
  }

  /** As with a person at the keyboard. */
  private CommandRun typed(String keys, String... more) {
    InputStream before = System.in;
    System.setIn(new ByteArrayInputStream(keys.getBytes(StandardCharsets.UTF_8)));
    try {
      return pop(more);
    } finally {
      System.setIn(before);
    }
  }

  private static void assertOneSentence(CommandRun run) {
    assertTrue(run.err().strip().endsWith("."), run.err());
    assertFalse(run.err().contains("\tat "), run.err());
  }

  // Truth: how each world is wired. One neighbour is 0.4 m away.
  @ParameterizedTest
  @CsvSource({
    "'left, right', 0, out, out",
    "'left, right reversed', 1, out, in",
    "'left reversed, right', 1, in, out",
    "'left reversed, right reversed', 1, in, in",
    "'left, right open', 1, out, hardly"
  })
  void microphoneTellsEachConeOfABoxOfSeparateSpaces(
      String wiring, int exitCode, String left, String right) throws Exception {
    CommandRun run = pop("--microphone", "--virtual", plover(wiring, ""), "--json");
    assertEquals(exitCode, run.exitCode(), run.out() + run.err());
    JsonNode answer = new ObjectMapper().readTree(run.out());
    assertEquals(List.of(), SchemaCheck.named("answer-1").problems(answer), run.out());
    assertEquals(left, answer.at("/drivers/0/motion").asText(), run.out());
    assertEquals(right, answer.at("/drivers/1/motion").asText(), run.out());
    assertTrue(run.err().contains("no amplifier"), "cautions come first: " + run.err());
  }

  // In one space the pressure of the right cone works on the wrong one, and the vent is heard too.
  @ParameterizedTest
  @CsvSource({"heron, 0, out", "heron-driver-reversed, 1, in"})
  void microphoneTellsEachConeOfABoxOfOneVentedSpace(String world, int exitCode, String motion)
      throws Exception {
    plan = copy("plans/heron.yaml", text -> text);
    CommandRun run = pop("--microphone", "--virtual", world, "--json");
    assertEquals(exitCode, run.exitCode(), run.out() + run.err());
    List<String> motions = new ArrayList<>();
    new ObjectMapper()
        .readTree(run.out())
        .get("drivers")
        .forEach(each -> motions.add(each.path("motion").asText()));
    assertTrue(motions.remove("out"), run.out());
    assertEquals(List.of(motion), motions, run.out());
  }

  @Test
  void withoutAWayChosenAMicrophoneThatIsThereIsUsed() throws Exception {
    CommandRun run = pop("--virtual", plover("left, right", ""), "--json");
    assertEquals("microphone", new ObjectMapper().readTree(run.out()).get("way").asText());
  }

  @Test
  void pulledMicrophoneIsSaidAndWithoutAWayChosenACellIsUsed() throws Exception {
    String world = plover("left, right", "\n  microphone: {distance_m: 0.3, gain: 0}");
    CommandRun asked = pop("--microphone", "--virtual", world);
    assertEquals(3, asked.exitCode());
    assertTrue(asked.out().contains("stands still"), asked.out());
    CommandRun guided = typed("\nout\n\nout\n", "--virtual", world, "--json");
    assertEquals(0, guided.exitCode(), guided.err());
    assertEquals("battery", new ObjectMapper().readTree(guided.out()).get("way").asText());
    assertTrue(guided.err().contains("9 V is the most"), guided.err());
  }

  @Test
  void backwardMicrophoneIsProvenOnADriverKnownToBeRightAndTurnedRound() throws Exception {
    String world = plover("left, right reversed", "\n  microphone: {distance_m: 0.3, gain: -1}");
    CommandRun blind = pop("--microphone", "--virtual", world);
    assertTrue(blind.out().contains("driver left: in"), blind.out());
    CommandRun proven = pop("--microphone", "--virtual", world, "--known-right", "left");
    assertTrue(proven.out().contains("wired backwards"), proven.out());
    assertTrue(proven.out().contains("driver left: out, right"), proven.out());
    assertTrue(proven.out().contains("driver right: in, WRONG"), proven.out());
  }

  @Test
  void everyConeTheWrongWayPointsToTheLeadsOrTheMicrophone() throws Exception {
    CommandRun run = pop("--microphone", "--virtual", plover("left reversed, right reversed", ""));
    assertTrue(run.out().contains("--known-right"), run.out());
  }

  @Test
  void boxOfSeparateSpacesPassesOnlyWithItsPopTest() throws Exception {
    String good = plover("left, right", "");
    Path curve = folder.resolve("good.csv");
    String calibration = folder.resolve("calibration.json").toString();
    done(
        "calibrate",
        "--virtual",
        good,
        "--resistor",
        "10",
        "--tolerance",
        "1",
        "--out",
        calibration);
    done("sweep", "--virtual", good, "--calibration", calibration, "--out", curve.toString());
    CommandRun without = judge(curve);
    assertEquals(2, without.exitCode(), "nothing shows its polarity: " + without.out());
    assertTrue(without.out().contains("do not share one air"), without.out());
    Path pops = folder.resolve("pops.json");
    pop("--microphone", "--virtual", good, "--serial", "P-1", "--out", pops.toString());
    CommandRun with = judge(curve, "--pops", pops.toString(), "--serial", "P-1", "--json");
    assertEquals(0, with.exitCode(), with.out() + with.err());
    assertTrue(with.out().contains("left out, right out (microphone"), with.out());
    String[] check = {
      "check",
      "--virtual",
      good,
      "--calibration",
      calibration,
      "--plan",
      plan.toString(),
      "--serial",
      "P-1",
      "--keep",
      folder.resolve("runs").toString(),
      "--pops",
      pops.toString()
    };
    done(check);
    CommandRun other = judge(curve, "--pops", pops.toString(), "--serial", "P-2");
    assertEquals(65, other.exitCode(), "the pop test of another box");
    assertOneSentence(other);
    CommandRun twice = judge(curve, "--pops", pops.toString(), "--pop", "left=out");
    assertEquals(64, twice.exitCode());
    assertOneSentence(twice);
  }

  @Test
  void boxWithAReversedDriverInASpaceOfItsOwnFailsWithItsPopTest() throws Exception {
    Path curve = folder.resolve("bad.csv");
    CommandRun.of("sweep", "--virtual", "plover", "--out", curve.toString());
    Path pops = folder.resolve("pops.json");
    assertEquals(
        1, pop("--microphone", "--virtual", "plover", "--out", pops.toString()).exitCode());
    CommandRun run = judge(curve, "--pops", pops.toString());
    assertEquals(1, run.exitCode(), run.out());
    assertTrue(run.out().contains("right"), run.out());
  }

  private static void done(String... words) {
    CommandRun run = CommandRun.of(words);
    assertEquals(0, run.exitCode(), run.out() + run.err());
  }

  private CommandRun judge(Path curve, String... more) {
    List<String> all =
        new ArrayList<>(List.of("judge", curve.toString(), "--plan", plan.toString()));
    all.addAll(Arrays.asList(more));
    return CommandRun.of(all.toArray(String[]::new));
  }

  @Test
  void personIsToldWhatToWatchAndMayRepeatAndSkip() throws Exception {
    CommandRun run =
        typed(
            "\nagain\n\nperhaps\nout\n\nskip\n",
            "--jig-step",
            "--virtual",
            plover("left, right", ""));
    assertEquals(3, run.exitCode(), run.out() + run.err());
    assertEquals(2, run.err().split("Stand before driver left", -1).length - 1, run.err());
    assertTrue(run.out().contains("driver left: out, right"), run.out());
    assertTrue(run.out().contains("driver right: no result"), run.out());
  }

  @Test
  void answersGivenNeedNeitherAPersonNorAJig() throws Exception {
    Path pops = folder.resolve("pops.json");
    CommandRun run = pop("--answer", "left=out", "--answer", "right=IN", "--out", pops.toString());
    assertEquals(1, run.exitCode(), run.err());
    JsonNode file = new ObjectMapper().readTree(Files.readString(pops));
    assertEquals(List.of(), SchemaCheck.named("pops-1").problems(file), file.toString());
    CommandRun again =
        pop("--answer", "left=out", "--answer", "right=IN", "--out", pops.toString());
    assertEquals(74, again.exitCode(), "a file that is there is left");
    assertOneSentence(again);
  }

  @Test
  void personWhoLeavesKeepsNothing() {
    CommandRun run = typed("", "--battery");
    assertEquals(3, run.exitCode());
    assertTrue(run.err().contains("--answer"), run.err());
  }

  @Test
  void magnetMountedOutwardsIsToldToGoAway() throws Exception {
    plan =
        copy(
            PLAN,
            text ->
                text.replace(
                    "{name: right, kind: eight inch, behind: lower}",
                    "{name: right, kind: eight inch, behind: outside, before: lower}"));
    CommandRun run = typed("\nout\n\nin\n", "--battery");
    assertEquals(0, run.exitCode(), run.out() + run.err());
    assertTrue(run.err().contains("whose magnet faces you"), run.err());
    assertTrue(run.err().contains("goes away from you"), run.err());
  }

  @ParameterizedTest
  @CsvSource({
    "--answer middle=out",
    "--answer left",
    "--answer left=up",
    "--battery --driver middle",
    "--microphone --driver left",
    "--microphone --answer left=out",
    "--microphone --known-right middle",
    "--battery --answer left=out --answer left=in"
  })
  void wrongCommandLinesAreSaidInOneSentence(String words) {
    CommandRun run = pop(words.split(" "));
    assertEquals(64, run.exitCode(), run.err());
    assertOneSentence(run);
  }

  @Test
  void personIsToldWhereToHoldTheMicrophoneOfAJigOnAWire() throws Exception {
    plan = copy("plans/dipper.yaml", text -> text);
    World dipper = DemoWorld.DIPPER.load();
    World before = dipper.with(dipper.jig().with(dipper.jig().microphone().before("woofer", 0.02)));
    VirtualJig jig = new VirtualJig(before.start(), JigSetup.standard());
    try (LoopbackServer server = new LoopbackServer(0, jig, StreamServer.Pace.FREE_RUNNING)) {
      Thread serving =
          new Thread(
              () -> {
                try {
                  server.serve();
                } catch (IOException e) {
                  throw new UncheckedIOException(e);
                }
              });
      serving.start();
      try {
        CommandRun run = typed("\n", "--microphone", "--tcp", "127.0.0.1:" + server.port());
        assertEquals(0, run.exitCode(), run.out() + run.err());
        assertTrue(run.err().contains("1 to 2 cm before the middle of the cone"), run.err());
      } finally {
        serving.interrupt();
        serving.join(10_000);
      }
    }
  }

  @Test
  void jigThatIsNotThereHasItsOwnExitCode() {
    CommandRun run = pop("--microphone", "--tcp", "127.0.0.1:1");
    assertEquals(69, run.exitCode());
    assertOneSentence(run);
  }
}
