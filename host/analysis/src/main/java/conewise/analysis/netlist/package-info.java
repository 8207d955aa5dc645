/**
 * A fitted box as a circuit that others can run: text for SPICE, checked against the fit. Knows no
 * file. Entry: {@link conewise.analysis.netlist.SpiceSubcircuit}.
 */
package conewise.analysis.netlist;
