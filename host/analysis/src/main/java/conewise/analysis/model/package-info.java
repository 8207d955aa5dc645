/**
 * The forward model: a box as air spaces, openings between them and a wiring of voice coils, and
 * the impedance at its terminals. Entry: {@link conewise.analysis.model.BoxModel} to describe,
 * {@link conewise.analysis.model.Network} to solve.
 */
package conewise.analysis.model;
