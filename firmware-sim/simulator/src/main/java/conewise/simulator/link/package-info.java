/**
 * Ways to reach a virtual jig, and what can go wrong on them. In memory: {@link
 * conewise.simulator.link.MemoryLink} with a {@link conewise.simulator.link.LinkFaults} plan. As a
 * byte stream for other programs: {@link conewise.simulator.link.StreamServer}.
 */
package conewise.simulator.link;
