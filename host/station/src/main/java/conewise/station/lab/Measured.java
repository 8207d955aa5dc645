package conewise.station.lab;

import conewise.simulator.box.Box;

/**
 * Something that is put on the jig.
 *
 * @param stem what its files begin with
 * @param words what it is, for the task sheet
 * @param box what lies between the terminals
 */
record Measured(String stem, String words, Box box) {}
