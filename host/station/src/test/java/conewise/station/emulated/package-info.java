/**
 * The real firmware on an emulated board, reached by the application through a pseudo-terminal.
 * Entry: {@link conewise.station.emulated.EmulatedBoard}.
 */
package conewise.station.emulated;
