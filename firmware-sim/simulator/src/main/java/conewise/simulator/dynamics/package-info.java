/**
 * Linear differential equations: written down term by term ({@link
 * conewise.simulator.dynamics.EquationSheet}), turned into a state space and stepped exactly from
 * tick to tick ({@link conewise.simulator.dynamics.DiscreteModel}).
 */
package conewise.simulator.dynamics;
