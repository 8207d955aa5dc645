package conewise.protocol;

import static org.junit.jupiter.api.Assertions.assertEquals;
import static org.junit.jupiter.api.Assertions.assertTrue;

import conewise.protocol.vectors.VectorFile;
import java.nio.charset.StandardCharsets;
import java.util.ArrayList;
import java.util.Arrays;
import java.util.EnumSet;
import java.util.List;
import java.util.Set;
import java.util.function.Function;
import java.util.stream.Collectors;
import java.util.stream.Stream;
import org.junit.jupiter.api.DynamicTest;
import org.junit.jupiter.api.Test;
import org.junit.jupiter.api.TestFactory;

/**
 * The vector files, line by line and as one stream. Their checksums were computed outside this
 * codec.
 */
class VectorsTest {
  private final CommandParser commands = new CommandParser(ReferenceJig.identity());

  @TestFactory
  Stream<DynamicTest> readsValidRequests() {
    return each("requests-valid.txt", LineReader.REQUEST_MAX, this::request);
  }

  @TestFactory
  Stream<DynamicTest> refusesInvalidRequests() {
    return each("requests-invalid.txt", LineReader.REQUEST_MAX, this::request);
  }

  @TestFactory
  Stream<DynamicTest> readsValidLinesOfAJig() {
    return each("lines-from-jig-valid.txt", LineReader.JIG_LINE_MAX, VectorsTest::fromJig);
  }

  @TestFactory
  Stream<DynamicTest> dropsInvalidLinesOfAJig() {
    return each("lines-from-jig-invalid.txt", LineReader.JIG_LINE_MAX, VectorsTest::fromJig);
  }

  @TestFactory
  Stream<DynamicTest> readsTheDataOfBlocks() {
    return VectorFile.packaged("samples.txt").stream()
        .map(vector -> DynamicTest.dynamicTest(vector.title(), () -> checkSamples(vector)));
  }

  private static void checkSamples(VectorFile.Case vector) {
    String[] parts = vector.wire().split(" ", -1);
    SampleCodec codec = new SampleCodec(Integer.parseInt(parts[0]), Integer.parseInt(parts[1]));
    SampleCodec.Outcome outcome = codec.decode(parts[2]);
    if (outcome instanceof SampleCodec.Samples samples) {
      String values =
          Arrays.stream(samples.interleaved())
              .mapToObj(String::valueOf)
              .collect(Collectors.joining(" "));
      assertEquals(vector.wanted(), values);
      assertEquals(parts[2], codec.encode(samples.interleaved()));
    } else {
      assertEquals(vector.wanted(), "malformed");
    }
  }

  private static Stream<DynamicTest> each(
      String file, int maxLength, Function<Line, String> reading) {
    List<VectorFile.Case> vectors = VectorFile.packaged(file);
    Stream<DynamicTest> single =
        vectors.stream()
            .map(
                v ->
                    DynamicTest.dynamicTest(
                        v.title(), () -> assertEquals(v.wanted(), alone(v, maxLength, reading))));
    return Stream.concat(
        single,
        Stream.of(
            DynamicTest.dynamicTest(
                "all in one stream", () -> stream(vectors, maxLength, reading))));
  }

  private static String alone(
      VectorFile.Case vector, int maxLength, Function<Line, String> reading) {
    return reading.apply(Line.of(vector.wire(), maxLength).orElseThrow());
  }

  private static void stream(
      List<VectorFile.Case> vectors, int maxLength, Function<Line, String> reading) {
    LineReader reader = new LineReader(maxLength);
    List<String> read = new ArrayList<>();
    for (VectorFile.Case vector : vectors) {
      for (byte octet : (vector.wire() + "\n").getBytes(StandardCharsets.ISO_8859_1)) {
        reader.accept(octet).ifPresent(line -> read.add(reading.apply(line)));
      }
    }
    assertEquals(vectors.stream().map(VectorFile.Case::wanted).toList(), read);
  }

  /** As the README writes it; a request is also built again and must be read the same. */
  private String request(Line line) {
    RequestParser.Outcome outcome = RequestParser.parse(line);
    if (outcome instanceof RequestParser.Wrong wrong) {
      return wrong.reply().toText();
    }
    RequestParser.Understood understood = (RequestParser.Understood) outcome;
    Request request = understood.request();
    try {
      commands.parse(request);
    } catch (FieldProblem problem) {
      return understood.refuse(problem.error(), problem.details()).toText();
    }
    return request.toText().replaceFirst(" ", understood.checked() ? " checked " : " typed ");
  }

  private static String fromJig(Line line) {
    ReplyParser.Outcome outcome = ReplyParser.parse(line);
    if (outcome instanceof ReplyParser.Unread) {
      return line instanceof Line.Damaged damaged
          ? damaged.reason().wireName()
          : ((Line.Sound) line).checked() ? "malformed" : "unchecked";
    }
    Message message = ((ReplyParser.Read) outcome).message();
    assertEquals(message, again(message));
    return described(message);
  }

  private static Message again(Message message) {
    Line line = Line.of(message.toLine(), LineReader.JIG_LINE_MAX).orElseThrow();
    return ((ReplyParser.Read) ReplyParser.parse(line)).message();
  }

  private static String described(Message message) {
    if (message instanceof Detail detail) {
      return "detail " + detail.toText().replace(" + ", " ");
    } else if (message instanceof Accepted accepted) {
      return "accepted " + accepted.toText().replace(" ok", "");
    } else if (message instanceof Refused refused) {
      return "refused " + refused.toText().replaceFirst(" no ", " ");
    } else if (message instanceof Pushed pushed) {
      return "pushed " + pushed.toText().substring(2);
    }
    Block block = (Block) message;
    return "block " + block.recordId() + " " + block.sequence() + " " + block.data();
  }

  @Test
  void pinEveryErrorAJigCanAnswerWith() {
    Set<JigError> pinned = EnumSet.noneOf(JigError.class);
    for (VectorFile.Case vector : VectorFile.packaged("lines-from-jig-valid.txt")) {
      String[] words = vector.wanted().split(" ", -1);
      if (words[0].equals("refused")) {
        pinned.add(JigError.find(Integer.parseInt(words[2]), words[3]).orElseThrow());
      }
    }
    assertEquals(EnumSet.allOf(JigError.class), pinned);
  }

  @Test
  void pinEveryVerbAndMoreInvalidThanValidLines() {
    List<VectorFile.Case> valid = VectorFile.packaged("requests-valid.txt");
    for (Verb verb : Verb.values()) {
      assertTrue(
          valid.stream().anyMatch(v -> v.wanted().contains(" " + verb.wireName())),
          verb.wireName());
    }
    assertTrue(valid.size() < VectorFile.packaged("requests-invalid.txt").size());
    assertTrue(
        VectorFile.packaged("lines-from-jig-valid.txt").size()
            < VectorFile.packaged("lines-from-jig-invalid.txt").size());
  }
}
