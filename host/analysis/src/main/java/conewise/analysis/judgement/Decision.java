package conewise.analysis.judgement;

/**
 * What is said of a check or of a whole box. A bad box and a broken bench are different outcomes.
 */
public enum Decision {
  /** The whole interval lies inside the limits. */
  PASS,
  /** The whole interval lies outside the limits. */
  FAIL,
  /** The interval crosses a limit, or the terminals cannot show it: something else must decide. */
  UNDECIDED,
  /** Nothing was obtained that could be judged: the bench or the run is at fault, not the box. */
  NOT_JUDGED
}
