/**
 * A bare driver's parameters from its sweeps, for people and for programs. Entry: {@link
 * conewise.station.driver.BareDriver}.
 */
package conewise.station.driver;
