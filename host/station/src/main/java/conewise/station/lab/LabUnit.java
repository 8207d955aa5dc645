package conewise.station.lab;

import java.util.List;
import java.util.Optional;
import java.util.OptionalDouble;

/** Units in which a question may be answered, each with what others are the same quantity. */
@SuppressWarnings("ImmutableEnumChecker") // List.of makes lists that cannot change
enum LabUnit {
  HERTZ("Hz", named("Hz", 1), named("kHz", 1e3)),
  OHM("ohm", named("ohm", 1), named("mohm", 1e-3), named("kohm", 1e3)),
  GRAM("g", named("g", 1), named("kg", 1e3)),
  LITRE("litres", named("litres", 1), named("litre", 1), named("m3", 1e3), named("cm3", 1e-3)),
  COMPLIANCE("mm/N", named("mm/N", 1), named("m/N", 1e3)),
  MECHANICAL_LOSS("kg/s", named("kg/s", 1), named("N s/m", 1)),
  FORCE_FACTOR("T m", named("T m", 1), named("N/A", 1)),
  MILLIHENRY("mH", named("mH", 1), named("H", 1e3), named("uH", 1e-3)),
  PURE("", named("", 1));

  private record Named(String name, double factor) {}

  private final String word;
  private final List<Named> all;

  LabUnit(String word, Named... all) {
    this.word = word;
    this.all = List.of(all);
  }

  private static Named named(String name, double factor) {
    return new Named(name, factor);
  }

  /** The unit that a question names; empty for a pure number. */
  String word() {
    return word;
  }

  /** What a unit as written is of this one, letters either way; none where it is another. */
  OptionalDouble factor(String written) {
    Optional<Named> same = all.stream().filter(each -> each.name.equals(written)).findFirst();
    return same.or(
            () -> all.stream().filter(each -> each.name.equalsIgnoreCase(written)).findFirst())
        .map(each -> OptionalDouble.of(each.factor))
        .orElse(OptionalDouble.empty());
  }

  /** All that may be written, for people. */
  String allowed() {
    return String.join(", ", all.stream().map(Named::name).toList());
  }
}
