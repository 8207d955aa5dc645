package conewise.station.lab;

import conewise.analysis.impedance.ImpedanceCurve;
import conewise.analysis.sampling.Capture;

/**
 * What the virtual jig gave of one thing.
 *
 * @param curve impedance of the quick sweep
 * @param raw the record that it rests on
 */
record Obtained(ImpedanceCurve curve, Capture raw) {}
