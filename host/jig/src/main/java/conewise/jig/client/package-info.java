/**
 * A jig as the host holds it: asks, waits for bounded times, and turns codes into volts and
 * amperes. Entry: {@link conewise.jig.client.JigClient}; what can go wrong: {@link
 * conewise.jig.client.JigFault}.
 */
package conewise.jig.client;
