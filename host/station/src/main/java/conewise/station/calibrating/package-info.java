/**
 * Calibrating a jig by open clips, a short and a known resistor, and keeping what came of it in a
 * file. Entry: {@link conewise.station.calibrating.Calibrating}.
 */
package conewise.station.calibrating;
