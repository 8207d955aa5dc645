package conewise.jig.serial;

/**
 * A serial port of this machine.
 *
 * @param name what to give as its name when opening it, e.g. {@code /dev/ttyUSB0} or {@code COM3}
 * @param description what the system says is on it; never blank
 * @param likely true when it is a USB port, as a jig's would be
 */
public record PortInfo(String name, String description, boolean likely) {

  public PortInfo {
    if (name.isBlank() || description.isBlank()) {
      throw new IllegalArgumentException(
          "a port has a name and a description; got \"" + name + "\", \"" + description + "\"");
    }
  }
}
