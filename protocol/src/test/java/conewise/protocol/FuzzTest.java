package conewise.protocol;

import static org.junit.jupiter.api.Assertions.assertEquals;
import static org.junit.jupiter.api.Assertions.assertTrue;
import static org.junit.jupiter.api.Assertions.fail;

import conewise.protocol.vectors.DialogueFile;
import conewise.protocol.vectors.VectorFile;
import java.nio.charset.StandardCharsets;
import java.util.ArrayList;
import java.util.Arrays;
import java.util.List;
import java.util.Optional;
import java.util.Random;
import java.util.stream.IntStream;
import org.junit.jupiter.api.BeforeAll;
import org.junit.jupiter.api.Test;

/**
 * Random and damaged input. Each run has its own seed, which it prints; -Dconewise.seed=N repeats
 * one.
 *
 * <p>Bound of a damaged line taken for another message: a random error passes a 16-bit checksum
 * once in 65 536, and no single burst of up to 16 bits passes at all. Of 100 000 damaged lines at
 * most a few may pass by chance (expected 1.5; more than 8 has a chance below 1e-7, Poisson).
 */
class FuzzTest {
  private static final long SEED = Long.getLong("conewise.seed", System.nanoTime());
  private static final int DAMAGED_LINES = 30_000;
  private static final int PASSED_BY_CHANCE = 8;

  private static final List<Verb> VERBS = List.of(Verb.values());
  private static final List<JigError> ERRORS = List.of(JigError.values());

  private final Random random = new Random(SEED);

  @BeforeAll
  static void printTheSeed() {
    System.out.println(seeded("Fuzzing the wire"));
  }

  private static String seeded(String what) {
    return what + " (repeat with -Dconewise.seed=" + SEED + ")";
  }

  @Test
  void messagesSurviveTheWire() {
    for (int i = 0; i < 2_000; i++) {
      Message message = message();
      Optional<Line> line = Line.of(message.toLine(), 400);
      Message read =
          message instanceof Request
              ? request(line.orElseThrow())
              : ((ReplyParser.Read) ReplyParser.parse(line.orElseThrow())).message();
      assertEquals(message, read, seeded("message " + i));
      assertEquals(message.toLine(), read.toLine(), seeded("message " + i));
    }
  }

  private static Request request(Line line) {
    return ((RequestParser.Understood) RequestParser.parse(line)).request();
  }

  private Message message() {
    int tag = random.nextInt(10_000);
    return switch (random.nextInt(6)) {
      case 0 -> randomRequest(tag);
      case 1 -> new Detail(tag, word(), fields());
      case 2 -> new Accepted(tag, fields());
      case 3 -> new Refused(tag, any(ERRORS), fields());
      case 4 -> new Pushed(word(), fields());
      default -> {
        SampleCodec codec = new SampleCodec(2 + random.nextInt(2), 2 + random.nextInt(2));
        yield new Block(
            1 + random.nextInt(255), random.nextInt(0x10000), codec.encode(samples(codec, 2)));
      }
    };
  }

  private <T> T any(List<T> among) {
    return among.get(random.nextInt(among.size()));
  }

  private Request randomRequest(int tag) {
    Verb verb = any(VERBS);
    Fields fields = Fields.NONE;
    for (String key : verb.keys()) {
      if (random.nextBoolean()) {
        fields = fields.with(key, value(8));
      }
    }
    Request request = new Request(tag, verb.wireName(), fields);
    return request.toText().length() <= 114 ? request : new Request(tag, "stop", Fields.NONE);
  }

  private int[] samples(SampleCodec codec, int frames) {
    return random.ints(6L * frames, 0, codec.maxValue() + 1).toArray();
  }

  private Fields fields() {
    Fields fields = Fields.NONE;
    for (int i = random.nextInt(4); i > 0; i--) {
      String key = word() + i;
      fields = key.length() > 16 ? fields : fields.with(key, value(20));
    }
    return fields;
  }

  private String word() {
    return text("abcdefghijklmnopqrstuvwxyz", 1 + random.nextInt(15));
  }

  private String value(int length) {
    String all =
        IntStream.rangeClosed('!', '}')
            .filter(c -> c != '=')
            .collect(StringBuilder::new, StringBuilder::appendCodePoint, StringBuilder::append)
            .toString();
    return text(all, 1 + random.nextInt(length)) + "=".repeat(random.nextInt(3));
  }

  private String text(String alphabet, int length) {
    return random
        .ints(length, 0, alphabet.length())
        .mapToObj(i -> String.valueOf(alphabet.charAt(i)))
        .reduce("", String::concat);
  }

  @Test
  void samplesSurviveTheWire() {
    for (int i = 0; i < 2_000; i++) {
      SampleCodec codec = new SampleCodec(2 + random.nextInt(2), 2 + random.nextInt(2));
      int[] values = samples(codec, 1 + random.nextInt(2));
      SampleCodec.Outcome outcome = codec.decode(codec.encode(values));
      assertTrue(
          outcome instanceof SampleCodec.Samples s && Arrays.equals(values, s.interleaved()),
          seeded("samples " + i));
    }
  }

  /**
   * A checked line with one to three bytes flipped, dropped, doubled or put in is not taken for
   * another checked message.
   */
  @Test
  void damagedLinesAreNotTakenForOthers() {
    List<String> sound = new ArrayList<>();
    VectorFile.packaged("lines-from-jig-valid.txt").forEach(vector -> sound.add(vector.wire()));
    int passed = 0;
    for (int i = 0; i < DAMAGED_LINES; i++) {
      String line = sound.get(random.nextInt(sound.size()));
      passed += takenForOthers(line, damage(line, 1 + random.nextInt(3)), i);
    }
    if (passed > PASSED_BY_CHANCE) {
      fail(seeded(passed + " of " + DAMAGED_LINES + " damaged lines passed"));
    }
  }

  private int takenForOthers(String line, String damaged, int index) {
    LineReader reader = new LineReader(LineReader.JIG_LINE_MAX);
    Message original = parsed(Line.of(line, LineReader.JIG_LINE_MAX).orElseThrow()).orElseThrow();
    int passed = 0;
    for (byte octet : (damaged + "\n").getBytes(StandardCharsets.ISO_8859_1)) {
      Optional<Message> message = reader.accept(octet).flatMap(FuzzTest::parsed);
      if (message.isPresent() && !message.get().equals(original)) {
        passed++;
      }
    }
    assertTrue(!reader.midLine(), seeded("line " + index));
    return passed;
  }

  private static Optional<Message> parsed(Line line) {
    return ReplyParser.parse(line) instanceof ReplyParser.Read read
        ? Optional.of(read.message())
        : Optional.empty();
  }

  private String damage(String line, int times) {
    StringBuilder bytes = new StringBuilder(line);
    for (int i = 0; i < times && bytes.length() > 0; i++) {
      int at = random.nextInt(bytes.length());
      switch (random.nextInt(4)) {
        case 0 -> bytes.setCharAt(at, (char) (bytes.charAt(at) ^ (1 << random.nextInt(8))));
        case 1 -> bytes.deleteCharAt(at);
        case 2 -> bytes.insert(at, bytes.charAt(at));
        default -> bytes.insert(at, (char) random.nextInt(256));
      }
    }
    return bytes.toString();
  }

  /**
   * Every single flipped bit of every valid checked request: refused, or told to be unchecked, or
   * the same request.
   */
  @Test
  void noFlippedBitTurnsACheckedRequestIntoAnother() {
    for (VectorFile.Case vector : VectorFile.packaged("requests-valid.txt")) {
      if (vector.wanted().contains(" typed ")) {
        continue;
      }
      Request original = request(Line.of(vector.wire(), LineReader.REQUEST_MAX).orElseThrow());
      for (int bit = 0; bit < vector.wire().length() * 8; bit++) {
        StringBuilder bytes = new StringBuilder(vector.wire());
        bytes.setCharAt(bit / 8, (char) (bytes.charAt(bit / 8) ^ (1 << (bit % 8))));
        checkFlipped(bytes.toString(), original);
      }
    }
  }

  private static void checkFlipped(String wire, Request original) {
    LineReader reader = new LineReader(LineReader.REQUEST_MAX);
    for (byte octet : (wire + "\n").getBytes(StandardCharsets.ISO_8859_1)) {
      Optional<Line> line = reader.accept(octet);
      if (line.isPresent()
          && RequestParser.parse(line.get()) instanceof RequestParser.Understood understood
          && understood.checked()) {
        assertEquals(original, understood.request(), wire);
      }
    }
  }

  @Test
  void noBytesBringAParserDown() {
    LineReader fromJig = new LineReader(LineReader.JIG_LINE_MAX);
    LineReader toJig = new LineReader(LineReader.REQUEST_MAX);
    CommandParser commands = new CommandParser(ReferenceJig.identity());
    String likely = "0123456789 +!:~=abcdefnokyplay\n\n\r";
    for (int i = 0; i < 200_000; i++) {
      byte octet =
          random.nextInt(20) == 0
              ? (byte) random.nextInt(256)
              : (byte) likely.charAt(random.nextInt(33));
      fromJig.accept(octet).ifPresent(ReplyParser::parse);
      toJig.accept(octet).ifPresent(line -> obey(commands, RequestParser.parse(line)));
    }
    assertTrue(fromJig.damagedLines() > 0, seeded("no damage was met"));
  }

  /** Random values in valid keys: a command or a problem with its field, never anything else. */
  @Test
  void noValuesBringTheCommandParserDown() {
    CommandParser commands = new CommandParser(ReferenceJig.identity());
    String[] values = {
      "0",
      "-1",
      "1",
      "16",
      "9999999999",
      "tone",
      "table",
      "dc",
      "AA==",
      "pass",
      "on",
      "906E",
      "none",
      "-"
    };
    for (int i = 0; i < 10_000; i++) {
      Verb verb = any(VERBS);
      Fields fields = Fields.NONE;
      for (String key : verb.keys()) {
        fields =
            random.nextInt(3) == 0
                ? fields
                : fields.with(key, values[random.nextInt(values.length)]);
      }
      obey(commands, new RequestParser.Understood(new Request(1, verb.wireName(), fields), true));
    }
  }

  private static void obey(CommandParser commands, RequestParser.Outcome outcome) {
    if (outcome instanceof RequestParser.Wrong wrong) {
      assertTrue(
          wrong.reply().toLine().length() <= LineReader.JIG_LINE_MAX,
          seeded(wrong.reply().toText()));
    } else if (outcome instanceof RequestParser.Understood understood) {
      try {
        commands.parse(understood.request());
      } catch (FieldProblem problem) {
        Refused refused = understood.refuse(problem.error(), problem.details());
        assertTrue(refused.toLine().length() <= LineReader.JIG_LINE_MAX, seeded(refused.toText()));
      }
    }
  }

  @Test
  void noDetailsBringTheIdentityDown() {
    for (int i = 0; i < 800; i++) {
      List<Detail> details = new ArrayList<>();
      for (String text : ReferenceJig.DETAILS) {
        String damaged = random.nextInt(8) == 0 ? damage(text, 2) : text;
        Line.of(Checksum.seal("1 + " + damaged.replace("\n", "")), LineReader.JIG_LINE_MAX)
            .flatMap(FuzzTest::parsed)
            .filter(Detail.class::isInstance)
            .ifPresent(detail -> details.add((Detail) detail));
      }
      try {
        JigIdentity identity = JigIdentity.fromDetails(details);
        assertEquals(
            identity, JigIdentity.fromDetails(identity.toDetails(3)), seeded("identity " + i));
      } catch (IdentityProblem problem) {
        assertTrue(
            problem.getMessage().startsWith("The jig's answer to identify"),
            seeded(problem.getMessage()));
      }
    }
  }

  @Test
  void vectorFilesFailOnlyWithASentence() {
    String text =
        "# a\n> 1 stop\\x0D\n= 1 typed stop\n== t\n? lamps=1\n> x ~....\n< 1 ok ~....\npause 5\n";
    for (int i = 0; i < 2_000; i++) {
      String damaged = damage(text, 3);
      for (Runnable reading :
          List.<Runnable>of(
              () -> VectorFile.parse("v", damaged), () -> DialogueFile.parse("d", damaged))) {
        try {
          reading.run();
        } catch (IllegalArgumentException e) {
          assertTrue(e.getMessage() != null && !e.getMessage().isBlank(), seeded(damaged));
        }
      }
    }
  }
}
