/**
 * Two kept curves beside one another. Entry: {@link
 * conewise.station.records.comparison.CurveRatio}.
 */
package conewise.station.records.comparison;
