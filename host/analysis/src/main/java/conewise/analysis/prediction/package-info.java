/**
 * What a planned box and each of its faults would show, before anything is built. Entry class:
 * {@link conewise.analysis.prediction.BoxPrediction}.
 */
package conewise.analysis.prediction;
