/**
 * The ways to a jig: serial ports, sockets, and the search for the port that it is on. Entries:
 * {@link conewise.jig.serial.JigFinder}, {@link conewise.jig.serial.SerialLink}, {@link
 * conewise.jig.serial.TcpLink}.
 */
package conewise.jig.serial;
