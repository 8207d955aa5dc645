package conewise.analysis.fit;

import conewise.analysis.impedance.ImpedanceCurve;
import conewise.analysis.model.BoxModel;

/**
 * A measured curve and the box as it was then: as built, with its vent closed, with a mass on a
 * cone, with one driver's leads swapped. Sweeps of one box share its quantities by their names.
 *
 * @param model the box, with stated values to start from
 * @param curve its impedance; a point at 0 Hz is the DC resistance
 */
public record Sweep(BoxModel model, ImpedanceCurve curve) {}
