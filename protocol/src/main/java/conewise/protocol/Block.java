package conewise.protocol;

import java.util.Locale;
import java.util.regex.Pattern;

/**
 * A piece of a record. {@link SampleCodec} reads and makes its data.
 *
 * @param recordId the record it belongs to, 1 to 255
 * @param sequence its place in the record, 0 to 65535
 * @param data 1 to 128 characters of the base64 alphabet, without padding
 */
public record Block(int recordId, int sequence, String data) implements Message {
  /** The most characters of data. */
  public static final int DATA_MAX = 128;

  /** Characters of a block line apart from its data: mark, record, sequence, checksum, line end. */
  public static final int OVERHEAD = 17;

  private static final Pattern DATA = Pattern.compile("[A-Za-z0-9+/]{1,128}");

  /**
   * A block.
   *
   * @throws IllegalArgumentException if a number is outside its limits or the data is not of the
   *     base64 alphabet
   */
  public Block {
    if (recordId < 1 || recordId > 255) {
      throw new IllegalArgumentException("a record id runs from 1 to 255, but is " + recordId);
    }
    if (sequence < 0 || sequence > 0xFFFF) {
      throw new IllegalArgumentException(
          "a sequence number runs from 0 to 65535, but is " + sequence);
    }
    if (!isData(data)) {
      throw new IllegalArgumentException(
          "a block holds 1 to "
              + DATA_MAX
              + " characters of the base64 alphabet, not \""
              + data
              + "\"");
    }
  }

  static boolean isData(String data) {
    return DATA.matcher(data).matches();
  }

  @Override
  public String toText() {
    return String.format(Locale.ROOT, ": %02X %04X %s", recordId, sequence, data);
  }
}
