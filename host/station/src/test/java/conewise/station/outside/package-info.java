/**
 * Checks of the whole way, from a box's differential equations through the wire protocol to its
 * impedance, against things outside the project: closed forms and a circuit simulator.
 */
package conewise.station.outside;
