package conewise.station.learning;

import com.fasterxml.jackson.databind.node.ArrayNode;
import com.fasterxml.jackson.databind.node.ObjectNode;
import conewise.analysis.learning.LearnedFigure;
import conewise.analysis.learning.Lesson;
import conewise.station.answer.ExitCode;
import conewise.station.answer.JsonAnswer;

/** A lesson for programs, as docs/schemas/answer-1.json lays down. */
public final class LessonJson {
  private LessonJson() {}

  /** The whole answer. */
  public static ObjectNode write(Lesson lesson) {
    ObjectNode answer = JsonAnswer.of("learn", ExitCode.PASS);
    answer.put("plan", lesson.plan().name());
    answer.put("coverage", LearnedFigure.COVERAGE).put("confidence", LearnedFigure.CONFIDENCE);
    ArrayNode boxes = answer.putArray("boxes");
    lesson.boxes().forEach(boxes::add);
    ArrayNode figures = answer.putArray("figures");
    lesson.figures().forEach(figure -> figure(figures.addObject(), figure));
    ArrayNode notTold = answer.putArray("not_told");
    lesson.notTold().forEach(notTold::add);
    ArrayNode leftOut = answer.putArray("left_out");
    lesson
        .leftOut()
        .forEach(
            each -> leftOut.addObject().put("box", each.name()).put("because", each.because()));
    return answer;
  }

  private static void figure(ObjectNode node, LearnedFigure figure) {
    node.put("figure", figure.words())
        .put("unit", figure.unit())
        .put("boxes", figure.boxes())
        .put("mean", figure.value())
        .put("relative_spread", figure.spread())
        .put("relative_standard_uncertainty", figure.uncertainty());
    figure.ownSpread().ifPresent(own -> node.put("relative_own_spread", own));
    node.putObject("limits").put("low", figure.limits().low()).put("high", figure.limits().high());
  }
}
