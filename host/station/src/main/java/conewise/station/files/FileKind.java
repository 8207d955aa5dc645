package conewise.station.files;

import java.io.IOException;
import java.io.InputStream;
import java.nio.charset.StandardCharsets;
import java.nio.file.Files;
import java.nio.file.Path;
import java.util.Locale;

/** Tells what kind of file this is by its first bytes, and by its name where they leave it open. */
enum FileKind {
  IMPEDANCE_TABLE,
  TOUCHSTONE,
  CAPTURE_TABLE,
  WAV;

  private static final int LOOKED_AT = 1 << 16;

  private static final String KNOWN =
      "read are impedance tables and captures (CSV), one-port Touchstone files (.s1p) and"
          + " two-channel WAV files";

  /** Foreign kinds that are often picked by mistake, by their first bytes. */
  private enum Foreign {
    JPEG("\u00FF\u00D8\u00FF", "a JPEG picture"),
    PNG("\u0089PNG", "a PNG picture"),
    GIF("GIF8", "a GIF picture"),
    PDF("%PDF", "a PDF document"),
    ZIP("PK\u0003\u0004", "a ZIP archive or an office document"),
    GZIP("\u001F\u008B", "a gzip archive"),
    FLAC("fLaC", "a FLAC recording; export it as WAV"),
    OGG("OggS", "an Ogg recording; export it as WAV"),
    MP3("ID3", "an MP3 recording, whose compression spoils it"),
    UTF16_LITTLE("\u00FF\u00FE", "text of UTF-16; save it as UTF-8"),
    UTF16_BIG("\u00FE\u00FF", "text of UTF-16; save it as UTF-8"),
    HTML("<", "a web page or XML"),
    LATER_WAV("RF64", "a WAV file of the RF64 kind; export it as plain WAV"),
    BIG_ENDIAN_WAV("RIFX", "a WAV file with its bytes reversed (RIFX); export it as plain WAV");

    private final String beginning;
    private final String description;

    Foreign(String beginning, String description) {
      this.beginning = beginning;
      this.description = description;
    }
  }

  /** Recognises a file that is there and not empty. */
  static FileKind of(Path file) throws BadFileException {
    FileGate.size(file, Long.MAX_VALUE);
    byte[] first = beginning(file);
    String bytes = new String(first, StandardCharsets.ISO_8859_1);
    String name = file.toString().toLowerCase(Locale.ROOT);
    if (bytes.startsWith("RIFF")) {
      return WAV;
    }
    for (Foreign foreign : Foreign.values()) {
      if (bytes.startsWith(foreign.beginning)) {
        throw new BadFileException(file + " is " + foreign.description + "; " + KNOWN + ".");
      }
    }
    if (name.endsWith(".wav")) {
      throw new BadFileException(
          file + " is named as a WAV file and does not begin as one (RIFF); export it as WAV.");
    }
    if (name.matches(".*\\.s[0-9]{1,4}p")) {
      return TOUCHSTONE;
    }
    return ofText(file, new String(first, StandardCharsets.UTF_8));
  }

  private static FileKind ofText(Path file, String text) throws BadFileException {
    for (String line : text.split("[\\r\\n]+", -1)) {
      String lower = line.replace("\uFEFF", "").strip().toLowerCase(Locale.ROOT);
      if (lower.isEmpty()) {
        continue;
      }
      if (lower.startsWith("!") || lower.startsWith("[version")) {
        return TOUCHSTONE;
      }
      if (lower.startsWith("#")) {
        if (TouchstoneOptions.looksLike(lower.substring(1)) && lower.length() > 1) {
          return TOUCHSTONE;
        }
        continue;
      }
      return ofFirstLine(file, lower);
    }
    throw new BadFileException(file + " holds no measurement; " + KNOWN + ".");
  }

  private static FileKind ofFirstLine(Path file, String line) throws BadFileException {
    if (line.contains("voltage") || line.contains("current_a")) {
      return CAPTURE_TABLE;
    }
    if (line.contains("frequency") || line.contains("resistance") || line.contains("reactance")) {
      return IMPEDANCE_TABLE;
    }
    if (line.matches("plan\\s*:.*|\\{.*|---.*")) {
      throw new BadFileException(
          file
              + " is a plan or a result, not a measurement; name the measurement here, the plan"
              + " with its own option.");
    }
    String hint =
        NumberText.parse(line.split("[,;\\s]", 2)[0]).isPresent()
            ? "begins with numbers; put a header line above them, such as"
                + " frequency_hz,resistance_ohm,reactance_ohm"
            : "begins with " + Quoted.of(line) + ", which no known kind does; " + KNOWN;
    throw new BadFileException(file + " " + hint + ".");
  }

  private static byte[] beginning(Path file) throws BadFileException {
    try (InputStream in = Files.newInputStream(file)) {
      return in.readNBytes(LOOKED_AT);
    } catch (IOException e) {
      throw FileGate.unreadable(file, e);
    }
  }
}
