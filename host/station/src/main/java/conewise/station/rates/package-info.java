/**
 * How often a shop meets each fault, from a file. Entry: {@link conewise.station.rates.RatesFile}.
 */
package conewise.station.rates;
