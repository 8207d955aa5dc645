package conewise.jig.serial;

import static org.junit.jupiter.api.Assertions.assertEquals;
import static org.junit.jupiter.api.Assertions.assertInstanceOf;
import static org.junit.jupiter.api.Assertions.assertTrue;

import conewise.jig.client.JigListener;
import conewise.jig.workbench.ScriptedJig;
import conewise.jig.workbench.Workbench;
import conewise.protocol.link.ByteLink;
import conewise.protocol.link.LinkLostException;
import java.nio.charset.StandardCharsets;
import java.util.ArrayList;
import java.util.LinkedHashMap;
import java.util.List;
import java.util.Map;
import org.junit.jupiter.api.Test;

class JigFinderTest {

  private final Map<String, ByteLink> links = new LinkedHashMap<>();
  private final List<String> asked = new ArrayList<>();

  private PortInfo port(String name, boolean likely, ByteLink link) {
    links.put(name, link);
    return new PortInfo(name, "a port", likely);
  }

  private static PortInfo usedPort(String name) {
    return new PortInfo(name, "a port in use", true);
  }

  private JigFinder.Result search(PortInfo... ports) {
    JigFinder finder =
        new JigFinder(
            name -> {
              if (!links.containsKey(name)) {
                throw new LinkLostException("The port " + name + " is in use.");
              }
              return links.get(name);
            },
            JigListener.NONE);
    return finder.search(List.of(ports), port -> asked.add(port.name()));
  }

  private static ScriptedJig babbler() {
    ScriptedJig babbler = new ScriptedJig((j, request) -> {});
    for (int at = 0; at < 6000; at += 50) {
      babbler.rawAfter(at, "$NAV,1,2,3\r\n".getBytes(StandardCharsets.US_ASCII));
    }
    return babbler;
  }

  @Test
  void theJigIsFoundAmongPortsInUseSilentOnesAndBabblers() {
    ScriptedJig silent = new ScriptedJig((j, request) -> {});
    JigFinder.Found found =
        assertInstanceOf(
            JigFinder.Found.class,
            search(
                usedPort("A"),
                port("B", true, silent),
                port("C", true, babbler()),
                port("D", true, Workbench.resistor(4).link())));
    assertEquals("D", found.port().name());
    assertEquals(4, found.reports().size());
    assertTrue(found.reports().get(0).sentence().contains("in use"));
    assertTrue(found.reports().get(1).sentence().contains("did not answer"));
    assertTrue(found.reports().get(2).sentence().contains("no line of a jig"));
    assertTrue(found.reports().get(3).isJig());
    assertTrue(silent.isClosed());
    found.client().close();
  }

  @Test
  void portsThatAreNoJigsByTheirLooksAreAskedOnlyWhenNoOtherIs() {
    search(
        port("unlikely", false, Workbench.resistor(4).link()),
        port("usb", true, Workbench.resistor(4).link()));
    assertEquals(List.of("usb"), asked);
  }

  @Test
  void severalJigsAreNamedAndNoneIsChosen() {
    JigFinder.Several several =
        assertInstanceOf(
            JigFinder.Several.class,
            search(
                port("A", true, Workbench.resistor(4).link()),
                port("B", true, Workbench.resistor(4).link())));
    assertEquals(
        "There are 2 jigs, on A and B; name the port of the one to use.", several.sentence());
  }

  @Test
  void noPortAtAllIsSaid() {
    JigFinder.None none = assertInstanceOf(JigFinder.None.class, search());
    assertTrue(none.sentence().contains("no serial port"), none.sentence());
  }
}
