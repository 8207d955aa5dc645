/**
 * What is kept of each run: one folder a run, its files written whole, the verdict last. Entry:
 * {@link conewise.station.keeping.RunShelf}.
 */
package conewise.station.keeping;
