package conewise.station.command;

import com.fasterxml.jackson.databind.node.ArrayNode;
import com.fasterxml.jackson.databind.node.ObjectNode;
import conewise.jig.client.JigClient;
import conewise.jig.client.JigFaultException;
import conewise.protocol.Detail;
import conewise.station.answer.CommandFailure;
import conewise.station.answer.ExitCode;
import conewise.station.answer.JsonAnswer;
import conewise.station.answer.ProgressLine;
import conewise.station.answer.Screen;
import conewise.station.card.PlainText;
import conewise.station.measuring.JigChoice;
import java.io.PrintStream;
import java.util.List;
import java.util.Optional;
import java.util.concurrent.Callable;
import picocli.CommandLine.Command;
import picocli.CommandLine.Mixin;
import picocli.CommandLine.Option;
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

  @Option(
      names = "--give-serial",
      paramLabel = "S",
      description =
          "Store this serial number in the jig, 1 to 16 letters, digits or hyphens; calibrations"
              + " are kept by it.")
  private Optional<String> serial = Optional.empty();

  @Override
  public Integer call() throws CommandFailure {
    Screen screen = root.screen();
    if (serial.isPresent()) {
      giveSerial(serial.get());
    }
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

  private void giveSerial(String given) throws CommandFailure {
    if (!given.matches("[A-Za-z0-9-]{1,16}") || given.equals("none")) {
      throw new CommandFailure(
          ExitCode.USAGE,
          "--give-serial is \""
              + PlainText.tame(given)
              + "\"; it must be 1 to 16 letters, digits or hyphens, and not \"none\".");
    }
    JigChoice choice = jig.choice();
    if (choice instanceof JigChoice.Virtual) {
      throw new CommandFailure(
          ExitCode.USAGE,
          "--give-serial is for a jig that keeps it; a virtual jig in this program has one of its"
              + " own.");
    }
    try (ProgressLine progress = new ProgressLine(root.screen());
        JigClient client = choice.connect(progress)) {
      client.storeSerial(given);
    } catch (JigFaultException failed) {
      throw new CommandFailure(
          ExitCode.NO_JIG, failed.fault().sentence() + " " + failed.fault().nextStep(), failed);
    }
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
