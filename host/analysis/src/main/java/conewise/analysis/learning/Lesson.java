package conewise.analysis.learning;

import conewise.analysis.plan.PlannedBox;
import java.util.List;

/**
 * What several good boxes teach.
 *
 * @param plan the plan: the base plan with learned values, tolerances and limits
 * @param boxes the names of the boxes that it was learned from
 * @param figures what was learned, most telling first
 * @param notTold what the sweeps do not tell, and the base plan's statement stands for
 * @param leftOut boxes that are unlike the others, or wrong by the base plan
 */
public record Lesson(
    PlannedBox plan,
    List<String> boxes,
    List<LearnedFigure> figures,
    List<String> notTold,
    List<LeftOut> leftOut) {
  public Lesson {
    boxes = List.copyOf(boxes);
    figures = List.copyOf(figures);
    notTold = List.copyOf(notTold);
    leftOut = List.copyOf(leftOut);
  }
}
