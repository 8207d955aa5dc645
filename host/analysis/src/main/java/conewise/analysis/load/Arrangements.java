package conewise.analysis.load;

import conewise.analysis.model.Circuit;
import conewise.analysis.model.Circuit.Coil;
import conewise.analysis.model.Circuit.Parallel;
import conewise.analysis.model.Circuit.Series;
import conewise.analysis.outcome.Outcome;
import java.math.BigDecimal;
import java.math.MathContext;
import java.util.ArrayList;
import java.util.Comparator;
import java.util.HashMap;
import java.util.Iterator;
import java.util.List;
import java.util.Map;

/**
 * All ways to join like coils in series and parallel, each used once. Ways that differ only in
 * which coil stands where, or in the order of parts, are one way.
 */
public final class Arrangements {
  /** Of 8 coils there are 522 ways. */
  public static final int MOST_COILS = 8;

  private static final MathContext FOUR_DIGITS = new MathContext(4);
  private static final Circuit ANY = Circuit.coil("any", 1);

  /** A join is of one kind, its parts of the other. */
  private enum Join {
    SERIES,
    PARALLEL;

    Circuit of(List<Circuit> parts) {
      return this == SERIES ? new Series(parts) : new Parallel(parts);
    }

    Join other() {
      return this == SERIES ? PARALLEL : SERIES;
    }
  }

  private record Key(int coils, Join outermost) {}

  private final Map<Key, List<Circuit>> known = new HashMap<>();

  private Arrangements() {}

  /**
   * Every way, the simplest first: those that give each coil the same power, then by how deep joins
   * lie in one another, by their number, and by the load.
   *
   * @param coils 1 to 8, each named once
   * @param coilOhm of each, above 0: rated or DC
   */
  public static List<Arrangement> all(List<Coil> coils, double coilOhm) {
    requireCoils(coils);
    Arrangements ways = new Arrangements();
    List<Circuit> circuits = new ArrayList<>(ways.joined(coils.size(), Join.SERIES));
    if (coils.size() > 1) {
      circuits.addAll(ways.joined(coils.size(), Join.PARALLEL));
    }
    return circuits.stream()
        .map(circuit -> named(circuit, coils))
        .map(circuit -> new Arrangement(circuit, TerminalLoad.of(circuit, coil -> coilOhm)))
        .sorted(
            Comparator.comparing(Arrangement::sharesEvenly)
                .reversed()
                .thenComparing(Arrangement::depth)
                .thenComparing(Arrangement::joins)
                .thenComparing(each -> each.load().ohm()))
        .toList();
  }

  /**
   * The ways whose load is near a wanted one, the simplest first; no result, with the nearest loads
   * below and above, where there is none.
   *
   * @param wantedOhm above 0
   * @param tolerance relative, 0 to less than 1
   */
  public static Outcome<List<Arrangement>> near(
      List<Coil> coils, double coilOhm, double wantedOhm, double tolerance) {
    if (!(wantedOhm > 0) || Double.isInfinite(wantedOhm)) {
      throw new IllegalArgumentException(
          "the wanted load is " + wantedOhm + " ohm; it must be finite and above 0");
    }
    if (!(tolerance >= 0 && tolerance < 1)) {
      throw new IllegalArgumentException(
          "the tolerance is " + tolerance + "; it must be 0 or more and less than 1");
    }
    List<Arrangement> all = all(coils, coilOhm);
    double slack = Math.max(tolerance, Math.ulp(1.0) * coils.size() * 4);
    List<Arrangement> near =
        all.stream()
            .filter(each -> Math.abs(each.load().ohm() - wantedOhm) <= slack * wantedOhm)
            .toList();
    return near.isEmpty() ? Outcome.none(nearest(all, wantedOhm)) : Outcome.found(near);
  }

  private static String nearest(List<Arrangement> all, double wantedOhm) {
    double below =
        all.stream()
            .mapToDouble(each -> each.load().ohm())
            .filter(ohm -> ohm < wantedOhm)
            .max()
            .orElse(0);
    double above =
        all.stream()
            .mapToDouble(each -> each.load().ohm())
            .filter(ohm -> ohm > wantedOhm)
            .min()
            .orElse(0);
    String next =
        below == 0
            ? "the lowest is " + told(above)
            : above == 0
                ? "the highest is " + told(below)
                : "the nearest are " + told(below) + " and " + told(above);
    return "no way to join these coils gives " + told(wantedOhm) + " ohm; " + next + " ohm";
  }

  private static String told(double ohm) {
    return new BigDecimal(ohm).round(FOUR_DIGITS).stripTrailingZeros().toPlainString();
  }

  private static void requireCoils(List<Coil> coils) {
    if (coils.isEmpty() || coils.size() > MOST_COILS) {
      throw new IllegalArgumentException(
          "there are " + coils.size() + " coils; there must be 1 to " + MOST_COILS);
    }
    if (coils.stream().distinct().count() < coils.size()) {
      throw new IllegalArgumentException("a coil is named twice in " + coils);
    }
  }

  private static Circuit named(Circuit circuit, List<Coil> coils) {
    Iterator<Coil> names = coils.iterator();
    return circuit.withCoils(any -> names.next());
  }

  /** The ways whose outermost join is of one kind; of one coil the coil itself. */
  private List<Circuit> joined(int coils, Join outermost) {
    if (coils == 1) {
      return List.of(ANY);
    }
    Key key = new Key(coils, outermost);
    List<Circuit> before = known.get(key);
    if (before != null) {
      return before;
    }
    List<Circuit> found = new ArrayList<>();
    addJoins(outermost, coils, coils - 1, 0, List.of(), found);
    known.put(key, found);
    return found;
  }

  /** Parts in the order of falling size, and of their place among those of one size. */
  private void addJoins(
      Join join, int left, int largest, int from, List<Circuit> parts, List<Circuit> found) {
    if (left == 0) {
      found.add(join.of(parts));
      return;
    }
    for (int size = Math.min(left, largest); size >= 1; size--) {
      List<Circuit> choices = joined(size, join.other());
      for (int i = size == largest ? from : 0; i < choices.size(); i++) {
        List<Circuit> more = new ArrayList<>(parts);
        more.add(choices.get(i));
        addJoins(join, left - size, size, i, more, found);
      }
    }
  }
}
