package conewise.simulator.jig;

import conewise.protocol.Block;
import conewise.protocol.RecordEnd;
import conewise.protocol.RecordShape;
import conewise.protocol.SampleCodec;
import java.util.Arrays;
import java.util.List;

/**
 * Turns raw codes into blocks: skips, sums, packs. One block is filled while the one before waits
 * for the port; when both are full, samples are lost and that is an overrun.
 */
final class Recorder {
  private static final int ID_MAX = 255;

  private final Outbox outbox;
  private final int codes;
  private int id;
  private State state = State.IDLE;
  private RecordShape shape;
  private SampleCodec codec;
  private int[] sums = {};
  private int[] low = {};
  private int[] high = {};
  private int[] blockLow = {};
  private int[] blockHigh = {};
  private int[] block = {};
  private int blockValues;
  private int framesInSum;
  private int skipLeft;
  private int framesLeft;
  private int blocks;
  private int framesSent;

  /** What a recorder is doing. */
  enum State {
    IDLE,
    RUNNING,
    /** All frames are taken and the last block waits for the port. */
    DRAINING,
    OVERRUN
  }

  Recorder(Outbox outbox, int codes) {
    this.outbox = outbox;
    this.codes = codes;
  }

  /** Starts; the next code taken is channel 0 of the first frame. */
  void start(RecordShape shape, int frames, int skip) {
    this.shape = shape;
    codec = new SampleCodec(shape.channels(), shape.digits());
    id = id % ID_MAX + 1;
    sums = new int[shape.channels()];
    low = new int[shape.channels()];
    high = new int[shape.channels()];
    blockLow = new int[shape.channels()];
    blockHigh = new int[shape.channels()];
    Arrays.fill(low, codes - 1);
    clearBlock();
    block = new int[shape.blockFrames() * shape.channels()];
    framesInSum = 0;
    skipLeft = skip;
    framesLeft = frames;
    blocks = 0;
    framesSent = 0;
    state = State.RUNNING;
  }

  /** Takes one raw code; channels come in turn. */
  void take(int channel, int code) {
    if (state != State.RUNNING) {
      return;
    }
    sums[channel] += code;
    if (skipLeft == 0) {
      blockLow[channel] = Math.min(blockLow[channel], code);
      blockHigh[channel] = Math.max(blockHigh[channel], code);
    }
    if (channel == sums.length - 1 && ++framesInSum == shape.decimate()) {
      endSum();
    }
  }

  private void endSum() {
    framesInSum = 0;
    if (skipLeft > 0) {
      skipLeft--;
    } else {
      System.arraycopy(sums, 0, block, blockValues, sums.length);
      blockValues += sums.length;
      framesLeft--;
      if (blockValues == block.length || framesLeft == 0) {
        endBlock();
      }
    }
    Arrays.fill(sums, 0);
  }

  private void endBlock() {
    String data = codec.encode(Arrays.copyOf(block, blockValues));
    if (!outbox.offerBlock(new Block(id, blocks, data))) {
      state = State.OVERRUN;
      return;
    }
    blocks++;
    framesSent += blockValues / sums.length;
    for (int channel = 0; channel < sums.length; channel++) {
      low[channel] = Math.min(low[channel], blockLow[channel]);
      high[channel] = Math.max(high[channel], blockHigh[channel]);
    }
    clearBlock();
    if (framesLeft == 0) {
      state = State.DRAINING;
    }
  }

  private void clearBlock() {
    blockValues = 0;
    Arrays.fill(blockLow, codes - 1);
    Arrays.fill(blockHigh, 0);
  }

  State state() {
    return state;
  }

  boolean runs() {
    return state != State.IDLE;
  }

  /** The id of the record that runs or ran last; 0 before the first. */
  int id() {
    return id;
  }

  /** Channels that the converter serves in turn: those of the record, or the first two. */
  int channelsInTurn() {
    return runs() ? sums.length : 2;
  }

  /** Ends the record; a block only partly filled is dropped. Gives the line to say. */
  RecordEnd end(boolean complete) {
    state = State.IDLE;
    boolean empty = framesSent == 0;
    return new RecordEnd(
        id,
        framesSent,
        blocks,
        complete,
        empty ? List.of() : list(low),
        empty ? List.of() : list(high));
  }

  private static List<Integer> list(int[] values) {
    return Arrays.stream(values).boxed().toList();
  }
}
