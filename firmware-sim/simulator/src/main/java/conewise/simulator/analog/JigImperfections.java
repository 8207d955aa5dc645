package conewise.simulator.analog;

import static conewise.simulator.dynamics.Limits.require;

import conewise.simulator.box.Wiring.ForeignVoltage;
import java.util.List;
import java.util.SplittableRandom;

/**
 * How a real jig and its bench differ from what the jig states about itself.
 *
 * @param driveGain actual over nominal drive voltage
 * @param driveFilterHz corner of each of the two poles of the drive filter
 * @param bridgeLimitVolt the bridge goes no further, either way
 * @param bridgeLimitAmpere nor gives more current
 * @param senseOhm actual sense resistor
 * @param voltage the voltage channel
 * @param current the current channel
 * @param sound the optional channel
 * @param converter the converter
 * @param hum mains hum
 * @param contact clips and leads
 * @param microphone the microphone
 * @param foreign voltages that lie on the terminals, beside the box
 */
public record JigImperfections(
    double driveGain,
    double driveFilterHz,
    double bridgeLimitVolt,
    double bridgeLimitAmpere,
    double senseOhm,
    Amplifier voltage,
    Amplifier current,
    Amplifier sound,
    Converter converter,
    Hum hum,
    Contact contact,
    Microphone microphone,
    List<ForeignVoltage> foreign) {

  /**
   * One channel's amplifier and filter.
   *
   * @param gain actual over nominal gain
   * @param offsetCodes departure of its zero, in converter codes
   * @param filterHz corner of its filter against aliases
   */
  public record Amplifier(double gain, double offsetCodes, double filterHz) {
    /** Checks the values. */
    public Amplifier {
      require("gain of a channel", gain, 0.1, 10, "times nominal");
      require("offset of a channel", offsetCodes, -500, 500, "codes");
      require("filter of a channel", filterHz, 10, 100_000, "Hz");
    }
  }

  private static final double FILTER_HZ = 1500;
  private static final double PART_TOLERANCE = 0.05;

  /** Where the circuit of hardware-notes gives up, with transistors of least gain. */
  private static final double BRIDGE_VOLT = 4.2;

  private static final double BRIDGE_AMPERE = 0.21;

  /** Half the codes of a converter of 10 bits. */
  private static final double HALF_RANGE_CODES = 512;

  /** Checks the values. */
  public JigImperfections {
    require("drive gain", driveGain, 0.1, 10, "times nominal");
    require("drive filter", driveFilterHz, 10, 100_000, "Hz");
    require("voltage limit of the bridge", bridgeLimitVolt, 0.001, 100, "V");
    require("current limit of the bridge", bridgeLimitAmpere, 0.0001, 100, "A");
    require("sense resistor", senseOhm, 0.1, 10_000, "ohm");
    foreign = List.copyOf(foreign);
  }

  /** A jig that is just what it states: only the converter's steps are left. */
  public static JigImperfections ideal() {
    Amplifier exact = new Amplifier(1, 0, FILTER_HZ);
    return new JigImperfections(
        1,
        FILTER_HZ,
        BRIDGE_VOLT,
        BRIDGE_AMPERE,
        10,
        exact,
        exact,
        exact,
        new Converter(0, 0),
        Hum.NONE,
        Contact.tight(0),
        Microphone.NEAR,
        List.of());
  }

  /** A jig of exact parts with the noise and bend of a usual converter, and 50 milliohm clips. */
  public static JigImperfections nominal() {
    return ideal().with(new Converter(0.4, 0.3)).with(Contact.tight(0.05));
  }

  /**
   * A jig of 5 % parts (sense resistor 1 %), drawn by a seed, in a room of about 60 dB above 20
   * micropascal.
   */
  public static JigImperfections typical(long seed) {
    SplittableRandom random = new SplittableRandom(seed);
    JigImperfections exact = nominal();
    return new JigImperfections(
        near(random, PART_TOLERANCE),
        FILTER_HZ * near(random, PART_TOLERANCE),
        exact.bridgeLimitVolt,
        exact.bridgeLimitAmpere,
        10 * near(random, 0.01),
        part(random),
        part(random),
        part(random),
        exact.converter,
        new Hum(50, 0.0005, 0.000002),
        exact.contact,
        new Microphone(0.3, near(random, 0.2)).coupledFrom(10).inNoise(0.02, 0.05),
        List.of());
  }

  /**
   * A jig of 5 % parts throughout, drawn by a seed: each gain, each filter, the sense resistor too,
   * and zeros that lie up to 5 % of half the converter's range off; converter and clips are usual
   * ones, the room is quiet.
   */
  public static JigImperfections fivePercent(long seed) {
    SplittableRandom random = new SplittableRandom(seed);
    JigImperfections exact = nominal();
    return new JigImperfections(
        near(random, PART_TOLERANCE),
        FILTER_HZ * near(random, PART_TOLERANCE),
        exact.bridgeLimitVolt,
        exact.bridgeLimitAmpere,
        10 * near(random, PART_TOLERANCE),
        loosePart(random),
        loosePart(random),
        loosePart(random),
        exact.converter,
        Hum.NONE,
        exact.contact,
        exact.microphone,
        List.of());
  }

  private static Amplifier loosePart(SplittableRandom random) {
    return new Amplifier(
        near(random, PART_TOLERANCE),
        HALF_RANGE_CODES * (near(random, PART_TOLERANCE) - 1),
        FILTER_HZ * near(random, PART_TOLERANCE));
  }

  /** All that is of the jig itself in one text: not its clips, nor what the bench adds. */
  public String parts() {
    return List.of(
            driveGain,
            driveFilterHz,
            bridgeLimitVolt,
            bridgeLimitAmpere,
            senseOhm,
            voltage,
            current,
            sound,
            converter)
        .toString();
  }

  private static Amplifier part(SplittableRandom random) {
    return new Amplifier(
        near(random, PART_TOLERANCE),
        4 * (random.nextDouble() - 0.5),
        FILTER_HZ * near(random, PART_TOLERANCE));
  }

  private static double near(SplittableRandom random, double tolerance) {
    return 1 + tolerance * (2 * random.nextDouble() - 1);
  }

  /** The same with another converter. */
  public JigImperfections with(Converter other) {
    return copy(senseOhm, voltage, current, other, hum, contact, microphone, foreign);
  }

  /** The same with other hum. */
  public JigImperfections with(Hum other) {
    return copy(senseOhm, voltage, current, converter, other, contact, microphone, foreign);
  }

  /** The same with other clips. */
  public JigImperfections with(Contact other) {
    return copy(senseOhm, voltage, current, converter, hum, other, microphone, foreign);
  }

  /** The same with another microphone. */
  public JigImperfections with(Microphone other) {
    return copy(senseOhm, voltage, current, converter, hum, contact, other, foreign);
  }

  /** The same with one more foreign voltage on the terminals. */
  public JigImperfections with(ForeignVoltage added) {
    List<ForeignVoltage> all = new java.util.ArrayList<>(foreign);
    all.add(added);
    return copy(senseOhm, voltage, current, converter, hum, contact, microphone, all);
  }

  /** The same with other amplifiers for voltage and current. */
  public JigImperfections withAmplifiers(Amplifier ofVoltage, Amplifier ofCurrent) {
    return copy(senseOhm, ofVoltage, ofCurrent, converter, hum, contact, microphone, foreign);
  }

  /** The same with another actual sense resistor. */
  public JigImperfections withSenseOhm(double ohm) {
    return copy(ohm, voltage, current, converter, hum, contact, microphone, foreign);
  }

  /** The same with other limits of the bridge. */
  public JigImperfections withLimits(double volt, double ampere) {
    return new JigImperfections(
        driveGain,
        driveFilterHz,
        volt,
        ampere,
        senseOhm,
        voltage,
        current,
        sound,
        converter,
        hum,
        contact,
        microphone,
        foreign);
  }

  private JigImperfections copy(
      double sense,
      Amplifier ofVoltage,
      Amplifier ofCurrent,
      Converter newConverter,
      Hum newHum,
      Contact newContact,
      Microphone newMicrophone,
      List<ForeignVoltage> newForeign) {
    return new JigImperfections(
        driveGain,
        driveFilterHz,
        bridgeLimitVolt,
        bridgeLimitAmpere,
        sense,
        ofVoltage,
        ofCurrent,
        sound,
        newConverter,
        newHum,
        newContact,
        newMicrophone,
        newForeign);
  }
}
