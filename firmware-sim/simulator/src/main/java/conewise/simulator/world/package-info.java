/** Whole worlds (box, jig, bench, seed): {@link conewise.simulator.world.World}. */
package conewise.simulator.world;
