/**
 * The repository's pages as its users take them: every command on them is run, and what they quote
 * is held to what the program prints. {@link conewise.station.documents.DocumentCommandsTest} is
 * the entry.
 */
package conewise.station.documents;
