package conewise.station.calculation;

import java.util.List;
import java.util.Map;

/** Something that can be worked out. */
public interface Calculation {
  /** Its name for programs and command lines: one word of small letters and hyphens. */
  String name();

  /** What it is, for people: a heading without a full stop. */
  String title();

  /** What it answers and what it rests on, in whole sentences. */
  String about();

  /** Where its formulas and constants come from, in whole sentences. */
  List<String> sources();

  /** What it is asked with, in the order in which to ask. */
  List<Entry> entries();

  /** Works it out from what was entered, which has all that is required. */
  Worked work(Given given) throws BadEntryException;

  /**
   * Works it out.
   *
   * @param texts what was typed, by the name of its entry
   * @throws BadEntryException with one sentence where something entered is not as it must be, or
   *     where what is wanted cannot be had
   */
  default Worked work(Map<String, List<String>> texts) throws BadEntryException {
    return work(Given.of(entries(), texts));
  }
}
