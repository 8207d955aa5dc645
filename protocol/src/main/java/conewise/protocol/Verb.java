package conewise.protocol;

import java.util.Arrays;
import java.util.List;
import java.util.Locale;
import java.util.Optional;

/**
 * The commands of version 1 and the fields that each may take, in the order in which a jig looks at
 * them.
 */
public enum Verb {
  /** Describe the jig. */
  IDENTIFY,
  /** Write points of the wave table. */
  LOAD("at", "data"),
  /** Start a wave. */
  PLAY("wave", "points", "step", "millihertz", "level", "dc", "crc"),
  /** Bound the peak of waves. */
  LIMIT("peak"),
  /** Record channels. */
  RECORD("channels", "frames", "skip", "decimate"),
  /** End wave and record. */
  STOP,
  /** Set a lamp. */
  LAMP("name", "state"),
  /** Sound the buzzer. */
  BUZZ("milliseconds"),
  /** Keep an id without power. */
  STORE("serial", "calibration"),
  /** Ask for state and counters. */
  STATUS;

  /** Made by List.of and so immutable, which the checker cannot see from the type. */
  @SuppressWarnings("ImmutableEnumChecker")
  private final List<String> keys;

  Verb(String... keys) {
    this.keys = List.of(keys);
  }

  /** The keys it may take, in the order of the specification. */
  public List<String> keys() {
    return keys;
  }

  /** The verb as it stands on a line. */
  public String wireName() {
    return name().toLowerCase(Locale.ROOT);
  }

  /** The command of a word of a line; empty if there is none. */
  public static Optional<Verb> find(String wireName) {
    return Arrays.stream(values()).filter(verb -> verb.wireName().equals(wireName)).findFirst();
  }
}
