package conewise.station.calculation;

import conewise.station.planfile.Measure;
import java.util.List;
import java.util.Locale;
import java.util.Optional;

/**
 * One thing that a calculation is asked with.
 *
 * @param name a word of small letters, unlike that of any other entry of the calculation
 * @param about what it is, for people, without a full stop
 * @param form how it is written
 * @param need whether it must be there
 * @param usual what is taken where nothing is entered, as it would be written
 */
public record Entry(String name, String about, Form form, Need need, Optional<String> usual) {

  /** Whether an entry must be there. */
  public enum Need {
    REQUIRED,
    OPTIONAL,
    /** As often as wanted, or not at all. */
    REPEATED
  }

  /** How an entry is written. */
  public sealed interface Form {
    /** For people, at the place of what is to be written: {@code LENGTH}. */
    String placeholder();
  }

  /**
   * A number with its unit.
   *
   * @param least the smallest allowed, in the measure's unit without prefix
   * @param most the largest allowed
   */
  public record Figure(Measure measure, double least, double most) implements Form {
    @Override
    public String placeholder() {
      return measure == Measure.WIRE_SECTION
          ? "SECTION"
          : measure.name().replace("RESISTANCE", "OHM");
    }
  }

  /**
   * A number in percent.
   *
   * @param least the smallest allowed, in percent
   * @param most the largest allowed, in percent
   */
  public record Percent(double least, double most) implements Form {
    @Override
    public String placeholder() {
      return "PERCENT";
    }
  }

  /** A whole number in a range. */
  public record Whole(int least, int most) implements Form {
    @Override
    public String placeholder() {
      return "N";
    }
  }

  /** One of some words. */
  public record Choice(List<String> words) implements Form {
    public Choice {
      words = List.copyOf(words);
    }

    @Override
    public String placeholder() {
      return String.join("|", words);
    }
  }

  /** Text that the calculation itself reads. */
  public record Text(String placeholder) implements Form {}

  static Entry required(String name, String about, Form form) {
    return new Entry(name, about, form, Need.REQUIRED, Optional.empty());
  }

  static Entry optional(String name, String about, Form form) {
    return new Entry(name, about, form, Need.OPTIONAL, Optional.empty());
  }

  static Entry repeated(String name, String about, Form form) {
    return new Entry(name, about, form, Need.REPEATED, Optional.empty());
  }

  /** One that has a value of its own where nothing is entered. */
  static Entry usual(String name, String about, Form form, String usual) {
    return new Entry(name, about, form, Need.OPTIONAL, Optional.of(usual));
  }

  /** What it is and how it may be written, for people, without a full stop. */
  public String described() {
    return about + units() + usual.map(value -> ". Default: " + value).orElse("");
  }

  private String units() {
    return form instanceof Figure figure
        ? String.format(Locale.ROOT, " (%s)", String.join(", ", figure.measure().labels()))
        : "";
  }

  /** In which units or signs it may be written; empty where that goes without saying. */
  public List<String> unitsAllowed() {
    return form instanceof Figure figure
        ? figure.measure().labels()
        : form instanceof Percent ? List.of("%") : List.of();
  }
}
