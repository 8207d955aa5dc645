package conewise.jig.client;

import conewise.analysis.sampling.Capture;
import conewise.protocol.Block;
import conewise.protocol.JigIdentity;
import conewise.protocol.RecordEnd;
import conewise.protocol.RecordStart;
import conewise.protocol.SampleCodec;
import java.util.List;

/** Puts the blocks of one record together and holds them against its end line. */
final class RecordAssembler {

  private final JigIdentity identity;
  private final RecordOrder order;
  private final RecordStart start;
  private final SampleCodec codec;
  private final Scaling scaling;
  private final int[][] values;
  private int frames;
  private int blocks;

  /**
   * Begins a record.
   *
   * @param phaseZeroTick the tick that instants are counted from
   */
  RecordAssembler(JigIdentity identity, RecordOrder order, RecordStart start, long phaseZeroTick) {
    this.identity = identity;
    this.order = order;
    this.start = start;
    this.codec = new SampleCodec(order.channels(), order.shape().digits());
    this.scaling = new Scaling(identity, order, start, phaseZeroTick);
    this.values = new int[order.channels()][order.frames()];
  }

  int frames() {
    return frames;
  }

  boolean isFull() {
    return frames == order.frames();
  }

  void take(Block block) throws JigFaultException {
    if (block.recordId() != start.recordId()) {
      return; // the tail of a record that was given up
    }
    if (block.sequence() != blocks || isFull()) {
      throw damaged("block " + block.sequence() + " came instead.");
    }
    int expected = Math.min(order.shape().blockFrames(), order.frames() - frames);
    if (!(codec.decode(block.data()) instanceof SampleCodec.Samples samples)
        || samples.frames() != expected) {
      throw damaged("it does not hold " + expected + " frames.");
    }
    for (int frame = 0; frame < expected; frame++) {
      for (int channel = 0; channel < order.channels(); channel++) {
        values[channel][frames + frame] = checked(samples.value(frame, channel));
      }
    }
    frames += expected;
    blocks++;
  }

  /** What came after the first so many frames. */
  Capture since(int earlier) {
    return scaling.capture(values, earlier, frames);
  }

  private int checked(int value) throws JigFaultException {
    int most = order.decimate() * (identity.converter().codes() - 1);
    if (value > most) {
      throw absurd("A sample is " + value + ", but can be " + most + " at most.");
    }
    return value;
  }

  /**
   * Holds the end line against what came.
   *
   * @param end an end that says complete=yes
   */
  Recording finish(RecordEnd end) throws JigFaultException {
    if (!isFull()) {
      throw damaged("the record ended after " + frames + " of " + order.frames() + " frames.");
    }
    if (end.frames() != frames || end.blocks() != blocks) {
      throw damaged("the jig sent " + end.blocks() + " blocks, but " + blocks + " came.");
    }
    List<Integer> low = end.low();
    List<Integer> high = end.high();
    if (low.size() != order.channels() || high.size() != order.channels()) {
      throw absurd("The record's end does not give a lowest and a highest code a channel.");
    }
    for (int channel = 0; channel < order.channels(); channel++) {
      requireWithin(channel, low.get(channel), high.get(channel));
    }
    return scaling.recording(values, low, high);
  }

  /** The jig's own extremes: of single frames they are ours exactly, of sums they are bounds. */
  private void requireWithin(int channel, int low, int high) throws JigFaultException {
    int lowest = Integer.MAX_VALUE;
    int highest = Integer.MIN_VALUE;
    for (int value : values[channel]) {
      lowest = Math.min(lowest, value);
      highest = Math.max(highest, value);
    }
    int d = order.decimate();
    boolean agrees =
        d == 1 ? lowest == low && highest == high : lowest >= low * d && highest <= high * d;
    if (!agrees) {
      throw damaged(
          "channel "
              + channel
              + " runs from "
              + lowest
              + " to "
              + highest
              + ", but the jig read "
              + (long) low * d
              + " to "
              + (long) high * d
              + ".");
    }
  }

  private JigFaultException damaged(String what) {
    return new JigFaultException(new JigFault.DamagedBlock(start.recordId(), blocks, what));
  }

  private static JigFaultException absurd(String because) {
    return new JigFaultException(new JigFault.AbsurdAnswer("record", because));
  }
}
