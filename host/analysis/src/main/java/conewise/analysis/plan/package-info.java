/** What a box should be. Entry: {@link conewise.analysis.plan.BoxPlan}. */
package conewise.analysis.plan;
