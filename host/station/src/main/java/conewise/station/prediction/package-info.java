/**
 * What a plan's box and its faults will show, in words: entry class {@link
 * conewise.station.prediction.PredictionAnswer}.
 */
package conewise.station.prediction;
