/**
 * Vents by their geometry: what ducts of a shape tune a space to, how long they must be, how fast
 * the air in them moves, and how the tuning goes with the air. Entry: {@link
 * conewise.analysis.vent.VentShape}.
 */
package conewise.analysis.vent;
