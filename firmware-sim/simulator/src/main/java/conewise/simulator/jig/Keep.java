package conewise.simulator.jig;

import java.util.Optional;

/** What a jig keeps without power. */
final class Keep {
  private final boolean works;
  private Optional<String> serial;
  private Optional<String> calibration = Optional.empty();

  Keep(boolean works, Optional<String> serial) {
    this.works = works;
    this.serial = serial;
  }

  /** Writes and reads back; false when it did not read back, and then the old id stands. */
  boolean store(String key, Optional<String> id) {
    if (!works) {
      return false;
    }
    if (key.equals("serial")) {
      serial = id;
    } else {
      calibration = id;
    }
    return true;
  }

  Optional<String> serial() {
    return serial;
  }

  Optional<String> calibration() {
    return calibration;
  }
}
