package conewise.protocol.vectors;

import static org.junit.jupiter.api.Assertions.assertEquals;
import static org.junit.jupiter.api.Assertions.assertFalse;
import static org.junit.jupiter.api.Assertions.assertThrows;
import static org.junit.jupiter.api.Assertions.assertTrue;
import static org.mockito.ArgumentMatchers.anyInt;
import static org.mockito.ArgumentMatchers.eq;
import static org.mockito.Mockito.mock;
import static org.mockito.Mockito.verify;
import static org.mockito.Mockito.when;

import conewise.protocol.Checksum;
import conewise.protocol.JigIdentity;
import conewise.protocol.Line;
import java.io.IOException;
import java.nio.charset.StandardCharsets;
import java.nio.file.Files;
import java.nio.file.Path;
import java.util.List;
import java.util.Optional;
import java.util.stream.Stream;
import org.junit.jupiter.api.Test;

class DialogueTest {
  private static JigIdentity jig(boolean fitted) {
    return new JigIdentity(
        new JigIdentity.Jig("1", "b", Optional.empty(), Optional.empty()),
        new JigIdentity.Clock(16_000_000, 1024),
        new JigIdentity.Converter(10, 1024),
        List.of(
            new JigIdentity.Channel(0, "u", "V", 512, 1, 0),
            new JigIdentity.Channel(1, "i", "A", 512, 1, 64_000)),
        new JigIdentity.Drive(511, 0.01, 10),
        new JigIdentity.Wave(1024, 8),
        new JigIdentity.RecordLimits(2, 1000, 1000, 256),
        new JigIdentity.Link(500_000, 120, 160, 2000),
        new JigIdentity.Fitted(fitted, fitted, fitted));
  }

  private static Dialogue only(String text) {
    return DialogueFile.parse("f", text).get(0).resolve(jig(false)).orElseThrow();
  }

  private static Optional<String> run(String text, String... lines) {
    JigUnderTest jig = mock(JigUnderTest.class);
    var answer = when(jig.nextLine(anyInt()));
    for (String line : lines) {
      answer = answer.thenReturn(Line.of(line, 160));
    }
    answer.thenReturn(Optional.empty());
    return new DialogueRunner(jig).run(only(text));
  }

  private static String sealed(String text) {
    return Checksum.seal(text);
  }

  @Test
  void everyPackagedDialogueAppliesToSomeJigAndNothingIsLeftInBraces() {
    List<Dialogue> all = DialogueFile.packaged();
    assertTrue(all.size() > 50, "only " + all.size());
    for (Dialogue dialogue : all) {
      for (JigIdentity jig : List.of(jig(true), jig(false))) {
        dialogue
            .resolve(jig)
            .ifPresent(resolved -> assertFalse(resolved.toString().contains("{"), dialogue.name()));
      }
    }
    assertEquals(
        all.size(), all.stream().map(Dialogue::name).distinct().count(), "names must differ");
  }

  @Test
  void theIndexListsEveryFile() throws IOException {
    try (Stream<Path> files = Files.list(Path.of("vectors", "dialogues"))) {
      List<String> names =
          files
              .map(file -> file.getFileName().toString())
              .filter(name -> name.endsWith(".txt"))
              .sorted()
              .toList();
      assertEquals(names, VectorFile.text("dialogues/INDEX").lines().toList());
    }
  }

  @Test
  void onlyTheStoreFileChangesWhatAJigKeeps() {
    for (Dialogue dialogue : DialogueFile.packaged()) {
      assertEquals(
          dialogue.name().startsWith("store.txt"), dialogue.changesStore(), dialogue.name());
    }
  }

  @Test
  void fillsInTheNumbersOfTheJig() {
    Dialogue dialogue = only("== t\n> a{level_max+1} b{step:34000}\npause {silence_ms-500}\n");
    assertEquals(
        List.of(new Dialogue.Send("a512 b9345849"), new Dialogue.Pause("1500")), dialogue.steps());
  }

  @Test
  void doesNotApplyWhereAConditionFails() {
    Dialogue dialogue = DialogueFile.parse("f", "== t\n? lamps=1\n> a\n").get(0);
    assertTrue(dialogue.resolve(jig(false)).isEmpty());
    assertTrue(dialogue.resolve(jig(true)).isPresent());
  }

  @Test
  void sendsTheRightChecksumInPlaceOfEachPlaceholder() {
    // 906E: check value of CRC-16/X-25 in the RevEng catalogue.
    JigUnderTest jig = mock(JigUnderTest.class);
    when(jig.nextLine(anyInt())).thenReturn(Optional.empty());
    new DialogueRunner(jig).run(only("== t\n> 123456789 ~....\\x0D\\x0A123456789 ~....\n"));
    verify(jig)
        .send(eq("123456789 ~906E\r\n123456789 ~906E\n".getBytes(StandardCharsets.ISO_8859_1)));
  }

  @Test
  void isContentWithTheExpectedLinesInAnyOrderOfFields() {
    assertEquals(
        Optional.empty(),
        run(
            "== t\n< 1 ok a=1 b=* ~....\n",
            sealed("! foot state=up"),
            sealed("1 ok new=7 b=2 a=1")));
    assertEquals(
        Optional.empty(),
        run(
            "== t\n<* : 01 * * ~....\n< 2 ok ~....\n",
            sealed(": 01 0000 AA"),
            sealed(": 01 0001 AA"),
            sealed("2 ok")));
    assertEquals(Optional.empty(), run("== t\n<* : 01 * * ~....\n< 2 ok ~....\n", sealed("2 ok")));
  }

  @Test
  void complainsOfEachWayToBeWrong() {
    String wanted = "== t\n< 1 ok a=1 ~....\n";
    for (String line :
        List.of(
            sealed("1 ok a=2"),
            sealed("1 ok"),
            sealed("2 ok a=1"),
            sealed("1 no a=1"),
            sealed("1 ok a=1 checked=no"),
            sealed("1 ok more a=1"),
            "1 ok a=1",
            "1 ok a=1 ~0000")) {
      assertTrue(run(wanted, line).isPresent(), line);
    }
    assertTrue(run(wanted).orElseThrow().contains("nothing came"));
    assertTrue(
        run(wanted, sealed("1 ok a=1"), sealed("1 ok a=1"))
            .orElseThrow()
            .contains("after the last step"));
  }

  @Test
  void namesTheLineThatBreaksTheFormat() {
    for (String text :
        List.of(
            "> a\n",
            "== t\nhello\n",
            "== t\n< no checksum\n",
            "== t\n> \\x4\n",
            "== t\n? x\n> a\n")) {
      String message =
          assertThrows(IllegalArgumentException.class, () -> DialogueFile.parse("f.txt", text))
              .getMessage();
      assertTrue(message.startsWith("f.txt line "), message);
    }
    assertThrows(IllegalArgumentException.class, () -> DialogueFile.parse("f.txt", "== t\n"));
    assertThrows(IllegalArgumentException.class, () -> only("== t\n> {colour}\n"));
    assertThrows(IllegalArgumentException.class, () -> VectorFile.parse("v", "= x\n"));
    assertThrows(IllegalArgumentException.class, () -> VectorFile.parse("v", "> x\n> y\n"));
    assertThrows(IllegalArgumentException.class, () -> VectorFile.packaged("absent.txt"));
  }
}
