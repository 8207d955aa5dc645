/**
 * A plan learned from good boxes of one design: values, tolerances and limits from their spread.
 * Entry: {@link conewise.analysis.learning.PlanLearning}.
 */
package conewise.analysis.learning;
