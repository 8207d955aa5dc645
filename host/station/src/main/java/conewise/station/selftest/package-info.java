/**
 * Whether a jig still reads a check resistor as it did: readings, the file that keeps them, the
 * comparison. Entry: {@link conewise.station.selftest.Drift}.
 */
package conewise.station.selftest;
