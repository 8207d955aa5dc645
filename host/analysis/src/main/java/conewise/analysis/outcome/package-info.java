/**
 * What an estimate can come to: a value, or no result and why. Entry: {@link
 * conewise.analysis.outcome.Outcome}.
 */
package conewise.analysis.outcome;
