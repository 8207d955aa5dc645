package conewise.station.lab;

/**
 * One thing that is asked.
 *
 * @param name within its experiment, as the answers' file has it
 * @param words what is asked, for people
 * @param key the right answer
 */
record Question(String name, String words, Key key) {}
