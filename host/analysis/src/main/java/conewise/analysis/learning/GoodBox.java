package conewise.analysis.learning;

import conewise.analysis.impedance.ImpedanceCurve;

/**
 * A box that is thought to be good.
 *
 * @param name for people, such as the file's name
 * @param curve its impedance as it came
 */
public record GoodBox(String name, ImpedanceCurve curve) {}
