package conewise.station.selftest;

import conewise.station.files.BadFileException;
import java.io.IOException;
import java.nio.ByteBuffer;
import java.nio.channels.FileChannel;
import java.nio.charset.StandardCharsets;
import java.nio.file.Files;
import java.nio.file.NoSuchFileException;
import java.nio.file.Path;
import java.nio.file.StandardOpenOption;
import java.time.DateTimeException;
import java.time.ZonedDateTime;
import java.util.ArrayList;
import java.util.List;
import java.util.Optional;

/**
 * The readings of check resistors on one jig, a line each, in a file that only grows.
 *
 * @param file a comma-separated table; made on first use
 */
public record CheckLog(Path file) {
  /** The first line. */
  static final String HEADER =
      "taken,resistor,value_ohm,tolerance_fraction,read_ohm,noise_ohm,scale_fraction,calibration,"
          + "temperature_celsius";

  private static final int FIELDS = 9;
  private static final long LARGEST_BYTES = 16L << 20;

  /**
   * What a file holds.
   *
   * @param readings all that could be read, as they stand
   * @param damagedLines how many lines could not
   */
  public record Content(List<CheckReading> readings, int damagedLines) {
    public Content {
      readings = List.copyOf(readings);
    }
  }

  /** The log in the folder of a jig's calibrations. */
  public static CheckLog in(Path folderOfJig) {
    return new CheckLog(folderOfJig.resolve("check-readings.csv"));
  }

  /**
   * Reads all; a line that is damaged is passed over and counted.
   *
   * @throws BadFileException when the file is there and cannot be read
   */
  public Content read() throws BadFileException {
    try {
      if (Files.size(file) > LARGEST_BYTES) {
        throw new BadFileException(
            file + " has " + Files.size(file) + " bytes; at most 16 MiB are read. Move it aside.");
      }
      // Any bytes make a text this way; damaged ones fail as numbers below.
      return content(new String(Files.readAllBytes(file), StandardCharsets.UTF_8));
    } catch (NoSuchFileException noneYet) {
      return new Content(List.of(), 0);
    } catch (IOException e) {
      throw failed("read", e);
    }
  }

  static Content content(String text) {
    List<CheckReading> readings = new ArrayList<>();
    int damaged = 0;
    for (String line : text.split("\r?\n", -1)) {
      if (line.isEmpty() || line.equals(HEADER)) {
        continue;
      }
      Optional<CheckReading> reading = reading(line);
      if (reading.isPresent()) {
        readings.add(reading.get());
      } else {
        damaged++;
      }
    }
    return new Content(readings, damaged);
  }

  private static Optional<CheckReading> reading(String line) {
    String[] fields = line.split(",", -1);
    if (fields.length != FIELDS) {
      return Optional.empty();
    }
    try {
      return Optional.of(
          new CheckReading(
              ZonedDateTime.parse(fields[0]),
              fields[1],
              Double.parseDouble(fields[2]),
              Double.parseDouble(fields[3]),
              Double.parseDouble(fields[4]),
              Double.parseDouble(fields[5]),
              Double.parseDouble(fields[6]),
              Optional.of(fields[7]).filter(id -> !id.equals("none")),
              fields[8].equals("unknown")
                  ? Optional.empty()
                  : Optional.of(Double.parseDouble(fields[8]))));
    } catch (DateTimeException | IllegalArgumentException damaged) {
      return Optional.empty();
    }
  }

  /** A reading as a line of the file, without its end. */
  static String line(CheckReading reading) {
    return String.join(
        ",",
        reading.taken().toOffsetDateTime().toString(),
        reading.resistor(),
        Double.toString(reading.valueOhm()),
        Double.toString(reading.toleranceFraction()),
        Double.toString(reading.readOhm()),
        Double.toString(reading.noiseOhm()),
        Double.toString(reading.scaleUncertainty()),
        reading.calibration().orElse("none"),
        reading.temperatureCelsius().map(String::valueOf).orElse("unknown"));
  }

  /**
   * Adds a reading at the end and has it on the disk. A line that was cut before it is ended first,
   * so that it spoils no other.
   *
   * @throws BadFileException when it cannot be written
   */
  public void append(CheckReading reading) throws BadFileException {
    try {
      Files.createDirectories(file.toAbsolutePath().getParent());
      try (FileChannel channel =
          FileChannel.open(
              file, StandardOpenOption.CREATE, StandardOpenOption.READ, StandardOpenOption.WRITE)) {
        long size = channel.size();
        String before = size == 0 ? HEADER + "\n" : endsWithLine(channel, size) ? "" : "\n";
        ByteBuffer bytes =
            ByteBuffer.wrap((before + line(reading) + "\n").getBytes(StandardCharsets.UTF_8));
        long at = size;
        while (bytes.hasRemaining()) {
          at += channel.write(bytes, at);
        }
        channel.force(true);
      }
    } catch (IOException e) {
      throw failed("written", e);
    }
  }

  private static boolean endsWithLine(FileChannel channel, long size) throws IOException {
    ByteBuffer last = ByteBuffer.allocate(1);
    channel.read(last, size - 1);
    return last.get(0) == '\n';
  }

  private BadFileException failed(String what, IOException cause) {
    BadFileException bad =
        new BadFileException(
            file + " cannot be " + what + "; check the folder, its rights and the free space.");
    bad.initCause(cause);
    return bad;
  }
}
