package conewise.station.command;

import com.fasterxml.jackson.databind.node.ArrayNode;
import com.fasterxml.jackson.databind.node.ObjectNode;
import conewise.jig.client.JigClient;
import conewise.protocol.Detail;
import conewise.station.answer.CommandFailure;
import conewise.station.answer.ExitCode;
import conewise.station.answer.JsonAnswer;
import conewise.station.answer.ProgressLine;
import conewise.station.answer.Screen;
import java.io.PrintStream;
import java.util.List;
import java.util.concurrent.Callable;
import picocli.CommandLine.Command;
import picocli.CommandLine.Mixin;
import picocli.CommandLine.ParentCommand;

/** {@code identify}: what a jig says about itself. */
@Command(
    name = "identify",
    mixinStandardHelpOptions = true,
    description = "Finds a jig and shows what it says about itself.")
final class IdentifyCommand implements Callable<Integer> {
  @ParentCommand private RootCommand root;

  @Mixin private AnswerOptions answer;

  @Mixin private JigOptions jig;

  @Override
  public Integer call() throws CommandFailure {
    Screen screen = root.screen();
    try (ProgressLine progress = new ProgressLine(screen);
        JigClient client = jig.choice().connect(progress)) {
      progress.wipe();
      List<Detail> details = client.identity().toDetails(0);
      if (answer.json) {
        screen.out().println(json(client.linkName(), details));
      } else {
        text(screen.out(), client.linkName(), details);
      }
    }
    return ExitCode.PASS.number();
  }

  private static void text(PrintStream out, String link, List<Detail> details) {
    out.println("A jig on " + link);
    for (Detail detail : details) {
      out.println("  " + detail.topic() + ": " + detail.fields());
    }
  }

  private static ObjectNode json(String link, List<Detail> details) {
    ObjectNode answer = JsonAnswer.of("identify", ExitCode.PASS);
    answer.put("link", link);
    ArrayNode topics = answer.putArray("identity");
    for (Detail detail : details) {
      ObjectNode topic = topics.addObject().put("topic", detail.topic());
      ObjectNode fields = topic.putObject("fields");
      detail.fields().keys().forEach(key -> fields.put(key, detail.fields().text(key)));
    }
    return answer;
  }
}
