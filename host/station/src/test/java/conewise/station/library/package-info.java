/** The examples of docs/library.md, which are shown there as they stand here. */
package conewise.station.library;
