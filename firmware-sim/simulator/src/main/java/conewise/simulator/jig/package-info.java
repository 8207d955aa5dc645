/**
 * The digital side of the virtual jig: everything that protocol/spec.md asks of a board, one tick
 * of the wave output at a time, with the integer arithmetic and the buffer sizes of a small 8-bit
 * board. Nothing here reads a clock; time passes by {@link
 * conewise.simulator.jig.VirtualJig#runTicks}. Entry: {@link conewise.simulator.jig.VirtualJig}.
 */
package conewise.simulator.jig;
