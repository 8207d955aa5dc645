package conewise.analysis.judgement;

import conewise.analysis.plan.BoxPlan;

/**
 * Compares one measured box with its plan. The seam behind which a judgement from the curve's shape
 * can give way to one from a fitted model.
 */
public interface Judge {

  /**
   * Judges one box.
   *
   * @param plan what the box should be
   * @param measurement what was measured, with what the bench has to say of it
   * @return a verdict; never null, never an exception for what a box or a bench can do
   */
  Verdict judge(BoxPlan plan, Measurement measurement);
}
