package conewise.station.prediction;

import conewise.analysis.diagnosis.Fault;
import conewise.analysis.prediction.WiringSlip;
import java.util.ArrayList;
import java.util.List;

/**
 * Slips of the wiring that an ohmmeter cannot tell from one another.
 *
 * @param slips at least one, all of one resistance
 */
public record SlipRow(List<WiringSlip> slips) {
  private static final double SAME = 1e-6;

  public SlipRow {
    slips = List.copyOf(slips);
  }

  /** Rows of like resistance, in the order in which they first appear. */
  static List<SlipRow> of(List<WiringSlip> slips) {
    List<List<WiringSlip>> rows = new ArrayList<>();
    for (WiringSlip slip : slips) {
      rows.stream()
          .filter(row -> alike(row.get(0), slip))
          .findFirst()
          .orElseGet(
              () -> {
                rows.add(new ArrayList<>());
                return rows.get(rows.size() - 1);
              })
          .add(slip);
    }
    return rows.stream().map(SlipRow::new).toList();
  }

  private static boolean alike(WiringSlip a, WiringSlip b) {
    return a.ohm() == b.ohm() || Math.abs(a.ohm() - b.ohm()) <= SAME * a.ohm();
  }

  /** What a meter reads, for people. */
  public String reading() {
    return CurveWords.ohm(slips.get(0).ohm());
  }

  /** Where it may lie; blank where it is open, or short. */
  public String range() {
    WiringSlip first = slips.get(0);
    return Double.isInfinite(first.ohm()) || first.range().high() < SAME
        ? ""
        : CurveWords.ohm(first.range());
  }

  /** Whether a meter shows them. */
  public WiringSlip.Meter meter() {
    return slips.get(0).meter();
  }

  /** The slips in words. */
  public String faults() {
    List<Fault> faults = slips.stream().map(WiringSlip::fault).toList();
    return FaultWords.of(faults);
  }
}
