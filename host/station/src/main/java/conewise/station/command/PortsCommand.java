package conewise.station.command;

import com.fasterxml.jackson.databind.node.ArrayNode;
import com.fasterxml.jackson.databind.node.ObjectNode;
import conewise.jig.serial.PortInfo;
import conewise.jig.serial.SerialPorts;
import conewise.station.answer.ExitCode;
import conewise.station.answer.JsonAnswer;
import conewise.station.answer.Screen;
import conewise.station.card.PlainText;
import java.util.List;
import java.util.concurrent.Callable;
import picocli.CommandLine.Command;
import picocli.CommandLine.Mixin;
import picocli.CommandLine.ParentCommand;

/** {@code ports}: the serial ports of this machine. */
@Command(
    name = "ports",
    mixinStandardHelpOptions = true,
    description = "Lists the serial ports that a jig may be on.")
final class PortsCommand implements Callable<Integer> {
  @ParentCommand private RootCommand root;

  @Mixin private AnswerOptions answer;

  @Override
  public Integer call() {
    List<PortInfo> ports = SerialPorts.list();
    Screen screen = root.screen();
    if (answer.json) {
      screen.out().println(json(ports));
    } else if (ports.isEmpty()) {
      screen.out().println("This machine has no serial port; plug the jig in.");
    } else {
      for (PortInfo port : ports) {
        String likely = port.likely() ? "  (may be a jig)" : "";
        screen.out().println(port.name() + "  " + PlainText.tame(port.description()) + likely);
      }
    }
    return ExitCode.PASS.number();
  }

  private static ObjectNode json(List<PortInfo> ports) {
    ObjectNode answer = JsonAnswer.of("ports", ExitCode.PASS);
    ArrayNode list = answer.putArray("ports");
    for (PortInfo port : ports) {
      list.addObject()
          .put("name", port.name())
          .put("description", port.description())
          .put("likely", port.likely());
    }
    return answer;
  }
}
