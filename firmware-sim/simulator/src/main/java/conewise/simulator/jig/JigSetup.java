package conewise.simulator.jig;

import conewise.protocol.JigIdentity;
import conewise.protocol.JigIdentity.Fitted;
import java.util.Optional;

/**
 * How a virtual jig is built: what its maker chose, apart from the analog hardware.
 *
 * @param firmware version that it states
 * @param board name that it states
 * @param baud bits a second that it states for its link, ten to a character
 * @param carriedBaud bits a second that the link really carries; the same as {@code baud} on a
 *     sound link, less on one that falls behind
 * @param silenceMilliseconds how long a wave or record lasts without a valid request
 * @param fitted the optional parts
 * @param storeWorks whether what is stored reads back; false for a worn-out memory
 * @param bootMilliseconds how long a reset keeps the jig deaf and dumb before it says {@code ready}
 * @param serial the serial number that is stored in it when it is first powered, if any
 */
public record JigSetup(
    String firmware,
    String board,
    int baud,
    int carriedBaud,
    int silenceMilliseconds,
    Fitted fitted,
    boolean storeWorks,
    int bootMilliseconds,
    Optional<String> serial) {

  /** Checks the numbers; {@link JigIdentity} checks the rest when the jig is made. */
  public JigSetup {
    require("carriedBaud", carriedBaud, 300, 100_000_000);
    require("bootMilliseconds", bootMilliseconds, 0, 60_000);
  }

  private static void require(String name, int value, int low, int high) {
    if (value < low || value > high) {
      throw new IllegalArgumentException(
          name + " is " + value + ", but must lie from " + low + " to " + high);
    }
  }

  /** 500 000 baud, everything fitted, a quarter of a second to boot after a reset. */
  public static JigSetup standard() {
    return new JigSetup(
        "0.1.0",
        "virtual",
        500_000,
        500_000,
        2000,
        new Fitted(true, true, true),
        true,
        250,
        Optional.empty());
  }

  /** The same with another link, which carries what it states. */
  public JigSetup withBaud(int baud) {
    return new JigSetup(
        firmware,
        board,
        baud,
        baud,
        silenceMilliseconds,
        fitted,
        storeWorks,
        bootMilliseconds,
        serial);
  }

  /** The same on a link that carries less (or more) than the jig believes. */
  public JigSetup withCarriedBaud(int carriedBaud) {
    return new JigSetup(
        firmware,
        board,
        baud,
        carriedBaud,
        silenceMilliseconds,
        fitted,
        storeWorks,
        bootMilliseconds,
        serial);
  }

  /** The same with other optional parts. */
  public JigSetup withFitted(Fitted fitted) {
    return new JigSetup(
        firmware,
        board,
        baud,
        carriedBaud,
        silenceMilliseconds,
        fitted,
        storeWorks,
        bootMilliseconds,
        serial);
  }

  /** The same with a memory that does not keep what is stored. */
  public JigSetup withFailingStore() {
    return new JigSetup(
        firmware,
        board,
        baud,
        carriedBaud,
        silenceMilliseconds,
        fitted,
        false,
        bootMilliseconds,
        serial);
  }

  /** The same with another time to boot. */
  public JigSetup withBootMilliseconds(int bootMilliseconds) {
    return new JigSetup(
        firmware,
        board,
        baud,
        carriedBaud,
        silenceMilliseconds,
        fitted,
        storeWorks,
        bootMilliseconds,
        serial);
  }

  /** The same with a serial number stored in it, 1 to 16 letters, digits or hyphens. */
  public JigSetup withSerial(String stored) {
    return new JigSetup(
        firmware,
        board,
        baud,
        carriedBaud,
        silenceMilliseconds,
        fitted,
        storeWorks,
        bootMilliseconds,
        Optional.of(stored));
  }
}
