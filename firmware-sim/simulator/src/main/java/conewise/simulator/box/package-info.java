/**
 * Boxes as differential equations: air spaces, the openings between them, voice coils and their
 * wiring. {@link conewise.simulator.box.Box} says what a box is; {@link
 * conewise.simulator.box.BoxEquations} writes down how it moves.
 */
package conewise.simulator.box;
