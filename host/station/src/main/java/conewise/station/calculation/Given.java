package conewise.station.calculation;

import conewise.analysis.outcome.Outcome.Found;
import conewise.analysis.outcome.Outcome.NoResult;
import conewise.station.card.PlainText;
import conewise.station.files.NumberText;
import conewise.station.files.Quoted;
import conewise.station.planfile.TypedFigure;
import java.math.BigDecimal;
import java.util.ArrayList;
import java.util.LinkedHashMap;
import java.util.List;
import java.util.Map;
import java.util.Optional;
import java.util.OptionalDouble;
import java.util.stream.Stream;

/** What was entered for a calculation. */
public final class Given {
  private static final double PERCENT = 100;

  private final Map<String, List<String>> texts;

  private Given(Map<String, List<String>> texts) {
    this.texts = texts;
  }

  /**
   * What was entered, not read yet but for whether all of it belongs.
   *
   * @param entries what is asked for
   * @param texts what was typed, by the name of its entry; blank is as good as nothing
   * @throws BadEntryException where an entry is not known, is missing or is there more than once
   */
  static Given of(List<Entry> entries, Map<String, List<String>> texts) throws BadEntryException {
    Map<String, List<String>> kept = new LinkedHashMap<>();
    for (Map.Entry<String, List<String>> each : texts.entrySet()) {
      if (entries.stream().noneMatch(entry -> entry.name().equals(each.getKey()))) {
        throw new BadEntryException(
            Quoted.of(each.getKey())
                + " is not asked for; allowed are "
                + String.join(", ", entries.stream().map(Entry::name).toList())
                + ".");
      }
      List<String> typed = each.getValue().stream().filter(text -> !text.isBlank()).toList();
      if (!typed.isEmpty()) {
        kept.put(each.getKey(), typed);
      }
    }
    for (Entry entry : entries) {
      List<String> typed = kept.getOrDefault(entry.name(), List.of());
      if (typed.isEmpty() && entry.need() == Entry.Need.REQUIRED) {
        throw new BadEntryException(
            entry, entry.name() + " is missing: " + entry.described() + ".");
      }
      if (typed.size() > 1 && entry.need() != Entry.Need.REPEATED) {
        throw new BadEntryException(
            entry, entry.name() + " is given " + typed.size() + " times; give it once.");
      }
    }
    return new Given(kept);
  }

  /** Whether it was entered. */
  boolean has(Entry entry) {
    return texts.containsKey(entry.name());
  }

  /** All texts of an entry, tame; of one that has a usual value that, where nothing was entered. */
  List<String> all(Entry entry) {
    List<String> typed = texts.getOrDefault(entry.name(), entry.usual().stream().toList());
    return typed.stream().map(PlainText::tame).map(String::strip).toList();
  }

  private Optional<String> text(Entry entry) {
    return all(entry).stream().findFirst();
  }

  /** The text of an entry that is required or has a usual value. */
  String words(Entry entry) {
    return text(entry)
        .orElseThrow(() -> new IllegalStateException(entry.name() + " was asked for unseen"));
  }

  /** A figure that may be missing, in the unit without prefix. */
  OptionalDouble figure(Entry entry) throws BadEntryException {
    Optional<String> text = text(entry);
    return text.isEmpty()
        ? OptionalDouble.empty()
        : OptionalDouble.of(figure(entry, entry.name(), text.get()));
  }

  /** A figure that is required or has a usual value. */
  double value(Entry entry) throws BadEntryException {
    return figure(entry, entry.name(), words(entry));
  }

  /** A figure of an entry's form. */
  static double figure(Entry entry, String where, String text) throws BadEntryException {
    Entry.Figure form = (Entry.Figure) entry.form();
    var outcome = TypedFigure.read(text, form.measure(), form.least(), form.most());
    if (outcome instanceof NoResult<Double> none) {
      throw new BadEntryException(entry, where + " is " + none.because() + ".");
    }
    return ((Found<Double>) outcome).value();
  }

  /** A percentage, as a fraction. */
  double fraction(Entry entry) throws BadEntryException {
    Entry.Percent form = (Entry.Percent) entry.form();
    String text = words(entry);
    String number = text.endsWith("%") ? text.substring(0, text.length() - 1).strip() : "";
    OptionalDouble percent = NumberText.parse(number);
    if (percent.isEmpty()
        || percent.getAsDouble() < form.least()
        || percent.getAsDouble() > form.most()) {
      throw new BadEntryException(
          entry,
          entry.name()
              + " is "
              + Quoted.of(text)
              + "; allowed is a number in percent, "
              + plain(form.least())
              + " % to "
              + plain(form.most())
              + " %, written with the sign.");
    }
    return percent.getAsDouble() / PERCENT;
  }

  /** A whole number. */
  int whole(Entry entry) throws BadEntryException {
    Entry.Whole form = (Entry.Whole) entry.form();
    String text = words(entry);
    int number = text.matches("[0-9]{1,6}") ? Integer.parseInt(text) : form.least() - 1;
    if (number < form.least() || number > form.most()) {
      throw new BadEntryException(
          entry,
          entry.name()
              + " is "
              + Quoted.of(text)
              + "; allowed is a whole number from "
              + form.least()
              + " to "
              + form.most()
              + ".");
    }
    return number;
  }

  /** One of the words of a choice. */
  String choice(Entry entry) throws BadEntryException {
    List<String> words = ((Entry.Choice) entry.form()).words();
    String text = words(entry);
    if (!words.contains(text)) {
      throw new BadEntryException(
          entry,
          entry.name()
              + " is "
              + Quoted.of(text)
              + "; allowed is "
              + String.join(" or ", words)
              + ".");
    }
    return text;
  }

  /** Exactly one of some entries must be there. */
  Entry oneOf(Entry... entries) throws BadEntryException {
    List<Entry> there = new ArrayList<>();
    Stream.of(entries).filter(this::has).forEach(there::add);
    if (there.size() != 1) {
      List<String> names = Stream.of(entries).map(Entry::name).toList();
      String found =
          there.isEmpty()
              ? "none of them is there"
              : String.join(" and ", there.stream().map(Entry::name).toList()) + " are there";
      throw new BadEntryException(
          there.isEmpty() ? entries[0] : there.get(1),
          "Give exactly one of " + String.join(", ", names) + "; " + found + ".");
    }
    return there.get(0);
  }

  private static String plain(double value) {
    return BigDecimal.valueOf(value).stripTrailingZeros().toPlainString();
  }
}
