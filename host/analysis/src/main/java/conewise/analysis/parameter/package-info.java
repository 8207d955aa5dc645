/**
 * The trade's parameters of drivers and boxes from fitted sweeps. Entries: {@link
 * conewise.analysis.parameter.DriverMeasurement} for a bare driver, {@link
 * conewise.analysis.parameter.BoxMeasurement} for a box and its plan, {@link
 * conewise.analysis.parameter.BoxFigures} for any fitted box, {@link
 * conewise.analysis.parameter.TuningReadings} for the several readings of a tuning, {@link
 * conewise.analysis.parameter.SecondSweeps} for what would tell more.
 */
package conewise.analysis.parameter;
