/**
 * Pages for whoever asks what was kept, or works something out: the records with their filters, one
 * record, two curves, the owner's page, the calculations of the bench. Each is made on this machine
 * from what stands in its address, without a script. Entry: {@link conewise.station.desk.Desk}.
 */
package conewise.station.desk;
