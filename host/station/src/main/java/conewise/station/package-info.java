/** The application: what a person or a bench runs. Entry: {@link conewise.station.Conewise}. */
package conewise.station;
