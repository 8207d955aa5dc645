/**
 * Keeps the records: in one SQLite file, or on a PostgreSQL server that several benches share.
 * Entry: {@link conewise.station.records.store.RecordStore}.
 */
package conewise.station.records.store;
