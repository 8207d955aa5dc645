package conewise.station.answer;

import conewise.analysis.judgement.Decision;

/**
 * What the process hands back. The numbers from 64 follow the BSD convention of {@code sysexits.h}
 * (from memory).
 */
public enum ExitCode {
  /** The box passed, or what was asked was done. */
  PASS(0),
  /** The box failed. */
  FAIL(1),
  /** The measurement cannot decide. */
  UNDECIDED(2),
  /** The bench or the run is at fault, not the box. */
  NOT_JUDGED(3),
  /** The command line was wrong. */
  USAGE(64),
  /** A file cannot be read as what it should be. */
  BAD_DATA(65),
  /** No jig, or it does not answer. */
  NO_JIG(69),
  /** A fault of the application itself. */
  UNEXPECTED(70),
  /** Something could not be written. */
  CANNOT_WRITE(74);

  private final int number;

  ExitCode(int number) {
    this.number = number;
  }

  /** The number that the shell sees. */
  public int number() {
    return number;
  }

  /** The code of a verdict. */
  public static ExitCode of(Decision decision) {
    return switch (decision) {
      case PASS -> PASS;
      case FAIL -> FAIL;
      case UNDECIDED -> UNDECIDED;
      case NOT_JUDGED -> NOT_JUDGED;
    };
  }
}
