package conewise.station.card;

import conewise.analysis.impedance.ImpedanceCurve;
import conewise.analysis.model.Circuit.Coil;
import conewise.analysis.prediction.ExpectedBand;
import java.util.Optional;
import java.util.Set;

/**
 * What a measured curve is held against in a picture.
 *
 * @param expected where a box built as planned should lie
 * @param suspected what the likeliest fault would show, where one is named
 */
public record Backdrop(Optional<ExpectedBand> expected, Optional<Suspected> suspected) {
  /** Nothing. */
  public static final Backdrop NONE = new Backdrop(Optional.empty(), Optional.empty());

  /**
   * The curve of a fault.
   *
   * @param words what would be wrong, without a full stop
   * @param curve what that would show, laid to the measured one; none where it has no curve of its
   *     own
   * @param coils those of the plan's coils that it speaks of
   */
  public record Suspected(String words, Optional<ImpedanceCurve> curve, Set<Coil> coils) {
    /** Copies the set. */
    public Suspected {
      coils = Set.copyOf(coils);
    }
  }

  /** The coils that the likeliest fault speaks of. */
  public Set<Coil> suspectedCoils() {
    return suspected.map(Suspected::coils).orElse(Set.of());
  }

  /** The likeliest fault's curve. */
  public Optional<ImpedanceCurve> suspectedCurve() {
    return suspected.flatMap(Suspected::curve);
  }

  /** A band alone. */
  public static Backdrop of(ExpectedBand band) {
    return new Backdrop(Optional.of(band), Optional.empty());
  }
}
