/**
 * A planned box's figures from its sweeps, for people and for programs. Entry: {@link
 * conewise.station.box.BoxAnswer}.
 */
package conewise.station.box;
