/**
 * The jig's analog path around a box: drive filter, bridge, sense resistor, amplifiers, converter
 * and what is wrong with each. The digital side sees it as an {@link
 * conewise.simulator.analog.AnalogWorld}; {@link conewise.simulator.analog.VirtualAnalog} is the
 * one made of equations.
 */
package conewise.simulator.analog;
