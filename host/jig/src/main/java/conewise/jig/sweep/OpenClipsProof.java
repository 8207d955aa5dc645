package conewise.jig.sweep;

import conewise.analysis.bench.BenchCheck;
import conewise.analysis.bench.BenchFinding;
import conewise.analysis.sampling.Capture;
import conewise.analysis.sampling.SampledChannel;
import conewise.jig.client.JigClient;
import conewise.jig.client.JigFaultException;
import conewise.jig.client.RecordOrder;
import conewise.jig.client.Wave;
import java.util.ArrayList;
import java.util.Arrays;
import java.util.List;

/**
 * What a jig can prove about itself with nothing between its clips: its zeros, its noise, its drive
 * against its own voltage reading, and that nothing leaks. It cannot prove its scale of impedance:
 * that takes a resistor. About 2 s of jig time.
 */
public final class OpenClipsProof {

  private static final double IDLE_SECONDS = 0.5;
  private static final double SETTLE_SECONDS = 0.2;
  private static final double STEADY_SECONDS = 0.25;

  /** Half the full level stays clear of the converter's ends with any parts within 5 %. */
  private static final int STEADY_SHARE = 2;

  /**
   * 5 % of half of 1024 codes by the amplifiers' parts, and 2 codes by the converter (datasheet of
   * the ATmega328P, offset error, typical), as a part of half the range.
   */
  private static final double MOST_ZERO = 0.054;

  /** Six times what a quiet converter of 0.4 codes shows with its rounding (0.5 codes). */
  private static final double MOST_NOISE_CODES = 3;

  /** Two gains of 5 %, twice over for parts that have aged. */
  private static final double MOST_DRIVE_OFF = 0.2;

  /** The two halves of a bridge are equal but for their resistors. */
  private static final double MOST_UNBALANCE = 0.03;

  /** 500 ohm, from which on clips count as open, in millisiemens. */
  private static final double MOST_LEAK_MILLISIEMENS = 2;

  /**
   * One thing that was read.
   *
   * @param what what it is
   * @param value what was read
   * @param unit its unit; empty for a ratio
   * @param low the least that is right
   * @param high the most that is right
   * @param nextStep what to do where it is not
   */
  public record Item(
      String what, double value, String unit, double low, double high, String nextStep) {
    /** Whether it lies within its limits, ends included. */
    public boolean right() {
      return low <= value && value <= high;
    }
  }

  /**
   * What all of it gave.
   *
   * @param items what was read, in order
   * @param findings what stands on the terminals that is not the jig's; then nothing was driven
   */
  public record Report(List<Item> items, List<BenchFinding> findings) {
    public Report {
      items = List.copyOf(items);
      findings = List.copyOf(findings);
    }

    /** Whether anything foreign kept the jig from driving. */
    public boolean spoilt() {
      return findings.stream().anyMatch(BenchFinding::spoils);
    }
  }

  /**
   * Runs. The drive is off afterwards.
   *
   * @param client a jig whose clips are open
   * @throws JigFaultException when the jig does not do what is asked, after repeats
   */
  public Report run(JigClient client, SweepListener listener) throws JigFaultException {
    Tracker tracker = new Tracker(listener);
    RecordTaker taker = new RecordTaker(client, tracker);
    tracker.stage("listening to the terminals", 0, 0.4);
    Capture idle = taker.idle(order(client, IDLE_SECONDS, 0)).capture();
    List<BenchFinding> findings = BenchCheck.standard().idle(idle);
    List<Item> items = new ArrayList<>(atRest(client, idle));
    if (findings.stream().noneMatch(BenchFinding::spoils)) {
      int level = Math.max(1, client.identity().drive().levelMax() / STEADY_SHARE);
      RecordOrder order = order(client, STEADY_SECONDS, SETTLE_SECONDS);
      tracker.stage("driving one way", 0.4, 0.7);
      Capture up = taker.of(new Wave.Steady(level), order).capture();
      tracker.stage("driving the other way", 0.7, 1);
      Capture down = taker.of(new Wave.Steady(-level), order).capture();
      double asked = 2 * level * client.identity().drive().voltPerLevel();
      items.addAll(driven(idle, up, down, asked));
    }
    tracker.done();
    return new Report(items, findings);
  }

  private static RecordOrder order(JigClient client, double seconds, double skipSeconds) {
    double frameSeconds = 2 * client.identity().tickSeconds();
    return RecordOrder.raw(
        (int) Math.max(2, Math.round(seconds / frameSeconds)),
        (int) Math.round(skipSeconds / frameSeconds));
  }

  private static List<Item> atRest(JigClient client, Capture idle) {
    List<Item> items = new ArrayList<>();
    SampledChannel[] channels = {idle.voltageVolt(), idle.currentAmpere()};
    String[] names = {"voltage", "current"};
    double most = MOST_ZERO * client.identity().converter().codes() / 2.0;
    for (int i = 0; i < channels.length; i++) {
      double perCode = Math.abs(client.identity().channels().get(i).perCode());
      items.add(
          new Item(
              "zero of the " + names[i],
              mean(channels[i]) / perCode,
              "codes",
              -most,
              most,
              "Look at the resistors that set the middle of its range, and at its amplifier."));
      items.add(
          new Item(
              "noise of the " + names[i] + " at rest",
              deviation(channels[i]) / perCode,
              "codes",
              0,
              MOST_NOISE_CODES,
              "Keep the leads from mains and chargers, then look at the supply's capacitors."));
    }
    return items;
  }

  private static List<Item> driven(Capture idle, Capture up, Capture down, double askedVolt) {
    double volt = mean(up.voltageVolt()) - mean(down.voltageVolt());
    double ampere = mean(up.currentAmpere()) - mean(down.currentAmpere());
    List<Item> items = new ArrayList<>();
    items.add(
        new Item(
            "voltage on open clips over what was asked",
            volt / askedVolt,
            "",
            1 - MOST_DRIVE_OFF,
            1 + MOST_DRIVE_OFF,
            "Open the clips if something is between them; then look at the bridge, its supply and"
                + " the voltage's amplifier."));
    if (volt <= 0) {
      // Nothing else means anything then.
      return items;
    }
    double middle = (mean(up.voltageVolt()) + mean(down.voltageVolt())) / 2;
    items.add(
        new Item(
            "difference of the two directions of drive",
            (middle - mean(idle.voltageVolt())) / (volt / 2),
            "",
            -MOST_UNBALANCE,
            MOST_UNBALANCE,
            "Look at both halves of the bridge and their resistors."));
    items.add(
        new Item(
            "leakage of open clips",
            1000 * ampere / volt,
            "mS",
            -MOST_LEAK_MILLISIEMENS,
            MOST_LEAK_MILLISIEMENS,
            "Something is between the clips: take it off. If nothing is, the jig's input leaks."));
    return items;
  }

  private static double mean(SampledChannel channel) {
    return Arrays.stream(channel.values()).average().orElseThrow();
  }

  private static double deviation(SampledChannel channel) {
    double mean = mean(channel);
    return Math.sqrt(
        Arrays.stream(channel.values()).map(x -> (x - mean) * (x - mean)).average().orElseThrow());
  }
}
