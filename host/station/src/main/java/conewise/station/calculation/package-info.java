/**
 * The calculations of the bench: what each is asked with, how that is read, and what it answers as
 * figures, tables and remarks, for a command line or a page. Entry: {@link
 * conewise.station.calculation.Calculations}.
 */
package conewise.station.calculation;
