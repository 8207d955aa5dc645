package conewise.station.records.store;

import conewise.analysis.impedance.ImpedanceCurve;
import conewise.analysis.impedance.ImpedancePoint;
import conewise.analysis.impedance.ImpedanceUncertainty;
import conewise.analysis.sampling.Capture;
import conewise.analysis.sampling.SampledChannel;
import java.io.ByteArrayInputStream;
import java.io.ByteArrayOutputStream;
import java.io.DataInputStream;
import java.io.DataOutputStream;
import java.io.IOException;
import java.io.UncheckedIOException;
import java.util.ArrayList;
import java.util.Arrays;
import java.util.List;
import java.util.Optional;
import java.util.zip.GZIPInputStream;
import java.util.zip.GZIPOutputStream;

/**
 * Curves and captures as bytes and back, number for number. Compressed by gzip (RFC 1952), whose
 * checksum also tells a damaged one. The first number says which of the ways below was used.
 */
final class Packed {
  private static final int CURVE = 1;
  private static final int CAPTURE = 1;

  /** A converter gives few different readings: a table of them and the places in it is shorter. */
  private static final int PLACES = 1;

  private static final int PLAIN = 0;
  private static final int MOST_PLACES = 65_536;

  /** More than any curve or capture that is read from a file may hold. */
  private static final int MOST = 10_000_000;

  @FunctionalInterface
  private interface Writer {
    void write(DataOutputStream out) throws IOException;
  }

  private Packed() {}

  static byte[] of(ImpedanceCurve curve) {
    return packed(
        out -> {
          out.writeByte(CURVE);
          out.writeDouble(curve.scaleUncertainty());
          out.writeInt(curve.points().size());
          for (ImpedancePoint point : curve.points()) {
            write(out, point);
          }
        });
  }

  private static void write(DataOutputStream out, ImpedancePoint point) throws IOException {
    out.writeDouble(point.frequencyHz());
    out.writeDouble(point.resistanceOhm());
    out.writeDouble(point.reactanceOhm());
    out.writeBoolean(point.uncertainty().isPresent());
    if (point.uncertainty().isPresent()) {
      ImpedanceUncertainty known = point.uncertainty().get();
      out.writeDouble(known.varianceResistance());
      out.writeDouble(known.varianceReactance());
      out.writeDouble(known.covariance());
    }
  }

  static ImpedanceCurve curve(byte[] bytes) throws IOException {
    try (DataInputStream in = unpacked(bytes)) {
      require(CURVE, in.readUnsignedByte());
      double scale = in.readDouble();
      int count = size(in.readInt());
      List<ImpedancePoint> points = new ArrayList<>();
      for (int i = 0; i < count; i++) {
        points.add(point(in));
      }
      end(in);
      return new ImpedanceCurve(points, scale);
    } catch (IllegalArgumentException impossible) {
      throw new IOException(impossible.getMessage(), impossible);
    }
  }

  private static ImpedancePoint point(DataInputStream in) throws IOException {
    double hz = in.readDouble();
    double resistance = in.readDouble();
    double reactance = in.readDouble();
    Optional<ImpedanceUncertainty> known =
        in.readBoolean()
            ? Optional.of(
                new ImpedanceUncertainty(in.readDouble(), in.readDouble(), in.readDouble()))
            : Optional.empty();
    return new ImpedancePoint(hz, resistance, reactance, known);
  }

  static byte[] of(Capture capture) {
    return packed(
        out -> {
          out.writeByte(CAPTURE);
          write(out, capture.voltageVolt());
          write(out, capture.currentAmpere());
        });
  }

  private static void write(DataOutputStream out, SampledChannel channel) throws IOException {
    out.writeDouble(channel.firstInstantSeconds());
    out.writeDouble(channel.intervalSeconds());
    out.writeDouble(channel.lowRail());
    out.writeDouble(channel.highRail());
    out.writeInt(channel.length());
    double[] table = Arrays.stream(channel.values()).distinct().sorted().toArray();
    boolean few = table.length <= MOST_PLACES;
    out.writeByte(few ? PLACES : PLAIN);
    if (few) {
      out.writeInt(table.length);
      for (double value : table) {
        out.writeDouble(value);
      }
    }
    for (double value : channel.values()) {
      if (few) {
        out.writeShort(Arrays.binarySearch(table, value));
      } else {
        out.writeDouble(value);
      }
    }
  }

  static Capture capture(byte[] bytes) throws IOException {
    try (DataInputStream in = unpacked(bytes)) {
      require(CAPTURE, in.readUnsignedByte());
      Capture capture = new Capture(channel(in), channel(in));
      end(in);
      return capture;
    } catch (IllegalArgumentException impossible) {
      throw new IOException(impossible.getMessage(), impossible);
    }
  }

  private static SampledChannel channel(DataInputStream in) throws IOException {
    double first = in.readDouble();
    double interval = in.readDouble();
    double low = in.readDouble();
    double high = in.readDouble();
    double[] values = new double[size(in.readInt())];
    boolean few = in.readUnsignedByte() == PLACES;
    double[] table = new double[few ? size(in.readInt()) : 0];
    for (int i = 0; i < table.length; i++) {
      table[i] = in.readDouble();
    }
    for (int k = 0; k < values.length; k++) {
      values[k] = few ? at(table, in.readUnsignedShort()) : in.readDouble();
    }
    return new SampledChannel(values, first, interval, low, high);
  }

  private static double at(double[] table, int place) throws IOException {
    if (place >= table.length) {
      throw new IOException("place " + place + " of a table of " + table.length);
    }
    return table[place];
  }

  private static byte[] packed(Writer writer) {
    ByteArrayOutputStream bytes = new ByteArrayOutputStream();
    try (DataOutputStream out = new DataOutputStream(new GZIPOutputStream(bytes, 8192))) {
      writer.write(out);
    } catch (IOException e) {
      throw new UncheckedIOException("memory takes every byte", e);
    }
    return bytes.toByteArray();
  }

  private static DataInputStream unpacked(byte[] bytes) throws IOException {
    return new DataInputStream(
        new java.io.BufferedInputStream(new GZIPInputStream(new ByteArrayInputStream(bytes))));
  }

  private static void require(int known, int found) throws IOException {
    if (found != known) {
      throw new IOException("packed in way " + found + "; only way " + known + " is known");
    }
  }

  private static int size(int count) throws IOException {
    if (count < 0 || count > MOST) {
      throw new IOException(count + " numbers; 0 to " + MOST + " are possible");
    }
    return count;
  }

  /** Reading to the end is what has the checksum looked at. */
  private static void end(DataInputStream in) throws IOException {
    if (in.read() >= 0) {
      throw new IOException("more bytes than it should have");
    }
  }
}
