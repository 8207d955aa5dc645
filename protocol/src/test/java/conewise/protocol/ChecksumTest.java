package conewise.protocol;

import static org.junit.jupiter.api.Assertions.assertEquals;

import java.nio.charset.StandardCharsets;
import java.util.Random;
import org.junit.jupiter.api.Test;

class ChecksumTest {
  @Test
  void givesTheCatalogueCheckValue() {
    // CRC-16/IBM-SDLC, check value of the RevEng catalogue of parametrised CRC algorithms.
    assertEquals(0x906E, Checksum.of("123456789"));
    assertEquals(0x906E, Checksum.of("123456789".getBytes(StandardCharsets.US_ASCII)));
  }

  @Test
  void leavesTheResidueOfX25WhenItsOwnBytesFollow() {
    // ITU-T X.25: a frame followed by its check sequence, low byte first, leaves 0xF0B8 before the
    // inversion.
    Checksum checksum = new Checksum();
    "any frame".chars().forEach(checksum::update);
    int value = checksum.value();
    checksum.update(value & 0xFF);
    checksum.update(value >>> 8);
    assertEquals(0xF0B8, checksum.value() ^ 0xFFFF);
  }

  @Test
  void agreesWithAnUnreflectedLongDivisionOfPolynomials() {
    long seed = 20_251;
    Random random = new Random(seed);
    for (int length = 0; length < 200; length++) {
      byte[] bytes = new byte[length];
      random.nextBytes(bytes);
      assertEquals(division(bytes), Checksum.of(bytes), "seed " + seed + ", length " + length);
    }
    assertEquals(division(new byte[] {'A'}), Checksum.of("A"));
    assertEquals(0x0000, Checksum.of(""));
  }

  /**
   * The definition: bits low first, 0x1021 from the left, register reversed and inverted at the
   * end.
   */
  private static int division(byte[] bytes) {
    int register = 0xFFFF;
    for (byte octet : bytes) {
      for (int bit = 0; bit < 8; bit++) {
        int feedback = ((register >>> 15) ^ (octet >>> bit)) & 1;
        register = (register << 1) & 0xFFFF;
        register ^= feedback * 0x1021;
      }
    }
    return (Integer.reverse(register) >>> 16) ^ 0xFFFF;
  }

  @Test
  void sealsALineWithFourUpperCaseDigits() {
    assertEquals("123456789 ~906E", Checksum.seal("123456789"));
    assertEquals("00A0", Checksum.hex(0xA0));
  }
}
