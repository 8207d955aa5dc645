package conewise.simulator.jig;

import java.util.Arrays;

/**
 * Watches raw codes for the ends of the converter. Counts frames for {@code status} and for pushed
 * lines, and keeps the last half second in eight parts to tell clipping that lasts: that is looked
 * at once a part, so a halt comes at most one part late.
 */
final class ClippingWatch {
  private static final int CHANNELS = 3;
  private static final int PARTS = 8;
  private static final int PARTS_PER_SECOND = 16;

  private final int topCode;
  private final long ticksPerPart;
  private final long ticksPerSecond;
  private final boolean[] clipped = new boolean[CHANNELS];
  private final int[][] clippedInPart = new int[PARTS][CHANNELS];
  private final int[] framesInPart = new int[PARTS];
  private final long[] unsaid = new long[CHANNELS];
  private int part;
  private int partsSeen;
  private long ticksInPart;
  private long ticksSinceSaid;
  private long clippedFrames;

  ClippingWatch(int codes, long ticksPerSecond) {
    this.topCode = codes - 1;
    this.ticksPerSecond = ticksPerSecond;
    this.ticksPerPart = ticksPerSecond / PARTS_PER_SECOND;
    this.ticksSinceSaid = ticksPerSecond;
  }

  /** Forgets the last half second: something starts after a rest. */
  void restart() {
    for (int i = 0; i < PARTS; i++) {
      clearPart(i);
    }
    part = 0;
    partsSeen = 0;
    ticksInPart = 0;
    Arrays.fill(unsaid, 0);
  }

  private void clearPart(int index) {
    framesInPart[index] = 0;
    Arrays.fill(clippedInPart[index], 0);
  }

  void see(int channel, int code) {
    clipped[channel] = code == 0 || code == topCode;
  }

  /** A frame is complete. */
  void endFrame(boolean wavePlays) {
    framesInPart[part]++;
    boolean any = false;
    for (int channel = 0; channel < CHANNELS; channel++) {
      if (clipped[channel]) {
        any = true;
        clippedInPart[part][channel]++;
        unsaid[channel] += wavePlays ? 1 : 0;
        clipped[channel] = false;
      }
    }
    if (any && wavePlays) {
      clippedFrames++;
    }
  }

  /** A tick passes; true if at its end clipping has lasted for more than half of half a second. */
  boolean tick() {
    ticksSinceSaid = Math.min(ticksSinceSaid + 1, ticksPerSecond);
    ticksInPart++;
    if (ticksInPart < ticksPerPart) {
      return false;
    }
    ticksInPart = 0;
    partsSeen = Math.min(partsSeen + 1, PARTS);
    boolean lasting = partsSeen == PARTS && lasts();
    part = (part + 1) % PARTS;
    clearPart(part);
    return lasting;
  }

  private boolean lasts() {
    int frames = Arrays.stream(framesInPart).sum();
    for (int channel = 0; channel < CHANNELS; channel++) {
      int count = 0;
      for (int[] counts : clippedInPart) {
        count += counts[channel];
      }
      if (2 * count > frames) {
        return true;
      }
    }
    return false;
  }

  /** The channel to push a line about now, at most one a second; -1 for none. */
  int channelToSay() {
    if (ticksSinceSaid < ticksPerSecond) {
      return -1;
    }
    int most = 0;
    for (int channel = 1; channel < CHANNELS; channel++) {
      most = unsaid[channel] > unsaid[most] ? channel : most;
    }
    return unsaid[most] == 0 ? -1 : most;
  }

  /** The frames to say of that channel, which are then said. */
  long say(int channel) {
    long frames = unsaid[channel];
    unsaid[channel] = 0;
    ticksSinceSaid = 0;
    return frames;
  }

  /** Frames of which a channel stood at an end while a wave played, since the reset. */
  long clippedFrames() {
    return clippedFrames;
  }
}
