package conewise.jig.serial;

import com.fazecast.jSerialComm.SerialPort;
import java.util.ArrayList;
import java.util.Comparator;
import java.util.List;

/** The serial ports of this machine. */
public final class SerialPorts {

  private SerialPorts() {}

  /**
   * All serial ports that the system names, likely ones first, then by name. Opens none of them.
   *
   * @return the ports; empty when there are none
   */
  public static List<PortInfo> list() {
    List<PortInfo> ports = new ArrayList<>();
    for (SerialPort port : SerialPort.getCommPorts()) {
      ports.add(describe(port));
    }
    ports.sort(Comparator.comparing((PortInfo p) -> !p.likely()).thenComparing(PortInfo::name));
    return List.copyOf(ports);
  }

  /** A port that talks over USB has a vendor's number; others answer -1 or 0. */
  static PortInfo describe(SerialPort port) {
    String said = port.getDescriptivePortName();
    String description = said == null || said.isBlank() ? "serial port" : said.strip();
    return new PortInfo(port.getSystemPortPath(), description, port.getVendorID() > 0);
  }
}
