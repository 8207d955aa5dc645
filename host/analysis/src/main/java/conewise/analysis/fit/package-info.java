/**
 * The inverse: from impedance to the quantities of a box, with intervals and what they rest on.
 * Entry: {@link conewise.analysis.fit.BoxFit}.
 */
package conewise.analysis.fit;
