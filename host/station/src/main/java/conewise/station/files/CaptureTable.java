package conewise.station.files;

import conewise.analysis.sampling.Capture;
import conewise.analysis.sampling.SampledChannel;
import java.io.IOException;
import java.io.OutputStream;
import java.nio.charset.StandardCharsets;
import java.nio.file.Path;
import java.util.Arrays;
import java.util.List;

/**
 * Raw samples as CSV: columns {@code voltage_v} and {@code current_a}; above them the notes {@code
 * # sample_rate_hz:} and, where they apply, {@code # current_delay_s:}, {@code # voltage_rail_v:}
 * and {@code # current_rail_a:}.
 */
public final class CaptureTable {

  /** The most samples a channel that are read: 160 MB in memory. */
  public static final int MOST_SAMPLES = 10_000_000;

  private static final String VOLTAGE = "voltage_v";
  private static final String CURRENT = "current_a";
  private static final long MOST_BYTES = 1L << 30;
  private static final int FIRST_ROOM = 1 << 12;

  private CaptureTable() {}

  /**
   * Reads a capture of at most 10 million samples a channel and 1 GiB. The first voltage sample
   * stands at 0 s.
   *
   * @param progress hears how far the reading has come
   * @throws BadFileException when it is no such capture; the message names the line and the column
   */
  public static Capture read(Path file, Progress progress) throws BadFileException {
    try (TextSource source = TextSource.open(file, MOST_BYTES, progress)) {
      CaptureNotes notes = new CaptureNotes();
      CsvSource csv = new CsvSource(source, List.of(VOLTAGE, CURRENT), List.of(), notes);
      csv.readHeader();
      double[] voltage = new double[FIRST_ROOM];
      double[] current = new double[FIRST_ROOM];
      int count = 0;
      while (csv.nextRow()) {
        notes.close();
        if (count == MOST_SAMPLES) {
          throw source.bad("at most " + MOST_SAMPLES + " samples are read; shorten the capture.");
        }
        if (count == voltage.length) {
          int room = Math.min(MOST_SAMPLES, 2 * count);
          voltage = Arrays.copyOf(voltage, room);
          current = Arrays.copyOf(current, room);
        }
        voltage[count] = csv.number(VOLTAGE);
        current[count] = csv.number(CURRENT);
        count++;
      }
      if (count == 0) {
        throw source.badFile("there is no row of samples; a capture has at least one.");
      }
      return capture(source, notes, Arrays.copyOf(voltage, count), Arrays.copyOf(current, count));
    }
  }

  /**
   * Writes a capture. Each number is written with as many digits as bring back the same double; the
   * instants are kept against each other, not against the clock.
   *
   * @throws BadFileException when the file cannot be written, or is there and may not be replaced
   */
  public static void write(Path file, Capture capture, Existing existing) throws BadFileException {
    write(file, List.of(), capture, existing);
  }

  /**
   * Writes a capture as {@link #write(Path, Capture, Existing)} does, with comments above it.
   *
   * @param comments a line each, without the number sign
   * @throws BadFileException when the file cannot be written, or is there and may not be replaced
   */
  public static void write(Path file, List<String> comments, Capture capture, Existing existing)
      throws BadFileException {
    NewFile.write(file, existing, out -> writeTo(out, comments, capture));
  }

  private static Capture capture(
      TextSource source, CaptureNotes notes, double[] voltage, double[] current)
      throws BadFileException {
    double interval = notes.intervalSeconds(source);
    CaptureNotes.Rails volt = notes.rails(CaptureNotes.VOLTAGE_RAIL);
    CaptureNotes.Rails ampere = notes.rails(CaptureNotes.CURRENT_RAIL);
    return new Capture(
        new SampledChannel(voltage, 0, interval, volt.low(), volt.high()),
        new SampledChannel(current, notes.delaySeconds(), interval, ampere.low(), ampere.high()));
  }

  private static void writeTo(OutputStream out, List<String> comments, Capture capture)
      throws IOException {
    SampledChannel voltage = capture.voltageVolt();
    SampledChannel current = capture.currentAmpere();
    StringBuilder text = new StringBuilder();
    comments.forEach(comment -> text.append("# ").append(comment).append('\n'));
    note(
        text, CaptureNotes.RATE, Double.toString(SampleRate.ofInterval(voltage.intervalSeconds())));
    double delay = current.firstInstantSeconds() - voltage.firstInstantSeconds();
    if (delay != 0) {
      note(text, CaptureNotes.DELAY, Double.toString(delay));
    }
    rail(text, CaptureNotes.VOLTAGE_RAIL, voltage);
    rail(text, CaptureNotes.CURRENT_RAIL, current);
    text.append(VOLTAGE).append(',').append(CURRENT).append('\n');
    for (int k = 0; k < voltage.length(); k++) {
      text.append(voltage.values()[k]).append(',').append(current.values()[k]).append('\n');
      if (text.length() > FIRST_ROOM) {
        out.write(text.toString().getBytes(StandardCharsets.US_ASCII));
        text.setLength(0);
      }
    }
    out.write(text.toString().getBytes(StandardCharsets.US_ASCII));
  }

  private static void note(StringBuilder text, String key, String value) {
    text.append("# ").append(key).append(": ").append(value).append('\n');
  }

  private static void rail(StringBuilder text, String key, SampledChannel channel) {
    if (Double.isFinite(channel.lowRail()) || Double.isFinite(channel.highRail())) {
      note(text, key, railWord(channel.lowRail()) + " " + railWord(channel.highRail()));
    }
  }

  private static String railWord(double rail) {
    return Double.isFinite(rail) ? Double.toString(rail) : CaptureNotes.NO_RAIL;
  }
}
