/**
 * What is printed on a resistor, and whether such a one is made. Entry: {@link
 * conewise.station.resistor.ResistorMark}.
 */
package conewise.station.resistor;
