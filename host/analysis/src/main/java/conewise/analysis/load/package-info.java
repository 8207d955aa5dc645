/**
 * What a wiring of coils is to an amplifier, and which wirings of like coils give a wanted load.
 * Entries: {@link conewise.analysis.load.TerminalLoad}, {@link
 * conewise.analysis.load.Arrangements}.
 */
package conewise.analysis.load;
