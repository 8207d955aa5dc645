package conewise.station.files;

/** What a writer does when a file of that name is there already. */
public enum Existing {
  /** Leaves it alone and says so. */
  REFUSE,
  /** Puts the new file in its place, in one step. */
  REPLACE
}
