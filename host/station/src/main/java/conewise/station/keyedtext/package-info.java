/**
 * Files that people write, as keys and values in YAML or JSON, with the line of each; begin with
 * {@link conewise.station.keyedtext.KeyedText}. What the keys mean is for others to say.
 */
package conewise.station.keyedtext;
