package conewise.protocol;

import static org.junit.jupiter.api.Assertions.assertEquals;
import static org.junit.jupiter.api.Assertions.assertFalse;
import static org.junit.jupiter.api.Assertions.assertTrue;

import java.math.BigDecimal;
import java.math.BigInteger;
import java.math.MathContext;
import java.math.RoundingMode;
import java.util.Random;
import org.junit.jupiter.api.Test;

/**
 * The arithmetic of section 8 and of step and millihertz, against hand calculation and exact
 * decimals.
 */
class ArithmeticTest {
  private final JigIdentity identity = ReferenceJig.identity();

  @Test
  void countsTheCharactersOfBlocks() {
    assertEquals(32, new RecordShape(2, 1).blockFrames());
    assertEquals(145, new RecordShape(2, 1).blockCharacters());
    assertEquals(21, new RecordShape(3, 1).blockFrames());
    assertEquals(143, new RecordShape(3, 1).blockCharacters());
    assertEquals(21, new RecordShape(2, 2).blockFrames());
    assertEquals(14, new RecordShape(3, 4).blockFrames());
    assertEquals(12, new RecordShape(3, 4).intervalTicks());
    assertEquals(2, new RecordShape(2, 1).blocks(33));
    assertEquals(1, new RecordShape(2, 1).blocks(32));
  }

  @Test
  void aBlockLineIsAsLongAsItsShapeSays() {
    for (RecordShape shape :
        new RecordShape[] {new RecordShape(2, 1), new RecordShape(3, 1), new RecordShape(3, 2)}) {
      SampleCodec codec = new SampleCodec(shape.channels(), shape.digits());
      String data = codec.encode(new int[shape.blockFrames() * shape.channels()]);
      assertEquals(shape.blockCharacters(), new Block(1, 0, data).toLine().length() + 1);
    }
  }

  @Test
  void rawRecordsLeaveMoreThanAQuarterOfTheLinkFree() {
    // 16 000 000 / 1024 / 2 / 32 x 145 = 35 400.39; 16 000 000 / 1024 / 3 / 21 x 143 = 35 466.27
    // (by hand).
    LinkBudget pairs = LinkBudget.of(identity, new RecordShape(2, 1));
    assertEquals(35_401, pairs.needs());
    assertEquals(40_000, pairs.has());
    assertTrue(pairs.fits());
    assertEquals(35_467, LinkBudget.of(identity, new RecordShape(3, 1)).needs());
    assertTrue(1 - pairs.needs() / 50_000.0 > 0.29);
  }

  @Test
  void slowLinksNeedSums() {
    // 115 200 baud: 11 520 characters/s, four fifths 9216. Two channels in sums of 4: 15625/8/21 x
    // 143 = 13 300; of 8: 6650.
    JigIdentity slow = JigIdentity.fromDetails(ReferenceJig.with("link", "500000", "115200"));
    assertFalse(LinkBudget.of(slow, new RecordShape(2, 1)).fits());
    assertEquals(new LinkBudget(13_300, 9_216), LinkBudget.of(slow, new RecordShape(2, 4)));
    assertFalse(LinkBudget.of(slow, new RecordShape(2, 4)).fits());
    assertTrue(LinkBudget.of(slow, new RecordShape(2, 8)).fits());
  }

  @Test
  void aRecordThatNeedsExactlyFourFifthsIsCarried() {
    assertTrue(new LinkBudget(40_000, 40_000).fits());
    assertFalse(new LinkBudget(40_001, 40_000).fits());
  }

  @Test
  void turnsMillihertzIntoTheNearestStep() {
    // 34 Hz x 2^32 x 1024 / 16 MHz = 9 345 848.8369 (by hand).
    assertEquals(9_345_849, identity.stepFor(34_000));
    assertEquals(275, identity.stepFor(1)); // 274.877...
    assertEquals(0, identity.stepFor(0));
    long seed = 77;
    Random random = new Random(seed);
    for (int i = 0; i < 2_000; i++) {
      long millihertz = random.nextInt(2_000_001);
      BigDecimal exact =
          new BigDecimal(BigInteger.valueOf(millihertz * 1024).shiftLeft(32))
              .divide(BigDecimal.valueOf(16_000_000_000L), MathContext.DECIMAL128);
      assertEquals(
          exact.setScale(0, RoundingMode.HALF_UP).longValueExact(),
          identity.stepFor(millihertz),
          "seed " + seed);
    }
  }

  @Test
  void aStepTooLargeForItsFieldIsRefusedWithTheHighestThatFits() {
    JigIdentity slow =
        JigIdentity.fromDetails(ReferenceJig.with("clock", "16000000", "1024000")); // 1000 ticks/s
    CommandParser commands = new CommandParser(slow);
    assertEquals(2_147_483_646L, slow.stepFor(500_000) - 2);
    FieldProblem problem = problem(commands, 500_000);
    assertEquals(
        Fields.of("field", "millihertz", "given", "500000", "low", "1", "high", "499999"),
        problem.details());
    Command.PlayTone tone = (Command.PlayTone) commands.parse(tone(499_999));
    assertEquals(slow.stepFor(499_999), tone.step());
  }

  private static FieldProblem problem(CommandParser commands, int millihertz) {
    return org.junit.jupiter.api.Assertions.assertThrows(
        FieldProblem.class, () -> commands.parse(tone(millihertz)));
  }

  private static Request tone(int millihertz) {
    return new Request(
        0, "play", Fields.of("wave", "tone").with("millihertz", millihertz).with("level", 1));
  }

  @Test
  void ticksAndRatesAgree() {
    assertEquals(64e-6, identity.tickSeconds(), 1e-18);
    assertEquals(15_625, identity.tickRateHz(), 1e-9);
    assertEquals(15_625 / 4.0, identity.frequencyHz(1L << 30), 1e-9);
    assertEquals(64e-6, identity.channels().get(1).delaySeconds(), 1e-18);
  }
}
