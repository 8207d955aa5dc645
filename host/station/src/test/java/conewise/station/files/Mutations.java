package conewise.station.files;

import java.nio.charset.StandardCharsets;
import java.util.Arrays;
import java.util.List;
import java.util.Random;

/** Damages good files at random: bytes changed, taken out, put in, doubled, cut. */
public final class Mutations {

  private static final List<String> SPICE =
      List.of(
          "NaN",
          "1e999",
          "-",
          ",",
          ";",
          "\n",
          "\r",
          "\t",
          "#",
          "!",
          "[",
          "{",
          "}",
          "*a",
          "&a",
          "\"",
          "'",
          ":",
          "\0",
          "\uFEFF",
          "0x1",
          "1e-9999",
          "99999999999999999999",
          "?",
          "|",
          "- ",
          "inf",
          "%",
          "---\n",
          "...\n",
          "<<: ",
          "!!int ",
          "\u2028",
          "[[[[[[[[[[[[[[[[[[[[[[[[");

  private Mutations() {}

  /** One to eight mutations of the file. */
  public static byte[] of(byte[] good, Random random) {
    byte[] bytes = good.clone();
    int count = 1 + random.nextInt(8);
    for (int i = 0; i < count && bytes.length > 0; i++) {
      bytes = once(bytes, random);
    }
    return bytes;
  }

  private static byte[] once(byte[] bytes, Random random) {
    int at = random.nextInt(bytes.length);
    int end = Math.min(bytes.length, at + 1 + random.nextInt(12));
    byte[] before = Arrays.copyOf(bytes, at);
    byte[] after = Arrays.copyOfRange(bytes, end, bytes.length);
    byte[] piece = Arrays.copyOfRange(bytes, at, end);
    return switch (random.nextInt(6)) {
      case 0 -> {
        bytes[at] = (byte) random.nextInt(256);
        yield bytes;
      }
      case 1 -> {
        bytes[at] ^= (byte) (1 << random.nextInt(8));
        yield bytes;
      }
      case 2 -> join(before, after);
      case 3 -> join(before, piece, piece, after);
      case 4 ->
          join(
              before,
              SPICE.get(random.nextInt(SPICE.size())).getBytes(StandardCharsets.UTF_8),
              after);
      default -> random.nextInt(4) == 0 ? before : bytes;
    };
  }

  private static byte[] join(byte[]... parts) {
    int length = 0;
    for (byte[] part : parts) {
      length += part.length;
    }
    byte[] all = new byte[length];
    int at = 0;
    for (byte[] part : parts) {
      System.arraycopy(part, 0, all, at, part.length);
      at += part.length;
    }
    return all;
  }
}
