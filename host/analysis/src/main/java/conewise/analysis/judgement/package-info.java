/**
 * From a curve and a plan to a verdict. Entry: {@link conewise.analysis.judgement.BoxJudge}; what
 * it answers: {@link conewise.analysis.judgement.Verdict}.
 */
package conewise.analysis.judgement;
