/** What a box should be. Entry: {@link conewise.analysis.plan.PlannedBox}. */
package conewise.analysis.plan;
