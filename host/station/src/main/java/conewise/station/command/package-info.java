/** The command line: one class a command. Entry: {@link conewise.station.command.Application}. */
package conewise.station.command;
