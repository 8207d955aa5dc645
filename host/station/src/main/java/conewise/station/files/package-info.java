/**
 * Measurements in files: impedance tables, one-port Touchstone files, raw captures as CSV or WAV,
 * read and written. Entry: {@link conewise.station.files.MeasurementFile}, which recognises the
 * kind by itself.
 */
package conewise.station.files;
