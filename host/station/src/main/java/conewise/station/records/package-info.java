/**
 * What is kept of every run of every box. {@link conewise.station.records.BoxRun} is a run on its
 * way into the records, {@link conewise.station.records.KeptRun} one that is in them; {@code store}
 * keeps them, {@code trend} reads what they say together.
 */
package conewise.station.records;
