package conewise.analysis.plan;

import java.util.List;
import java.util.Optional;

/**
 * A kind of driver as its datasheet has it. All but the coils may be left out; what is left out is
 * taken to be of a usual size, and to lie far from it as likely as not.
 *
 * @param name its name, for people
 * @param coilOhm DC resistance of each voice coil in ohm, at least one
 * @param resonanceHz fs in hertz
 * @param mechanicalQ Qms
 * @param electricalQ Qes, all coils in use
 * @param equivalentVolumeM3 Vas in cubic metres
 * @param inductanceHenry that of one coil at about 1 kHz (as datasheets give it), in henry
 * @param areaM2 area of the cone in square metres
 */
public record DriverKind(
    String name,
    List<Stated> coilOhm,
    Optional<Stated> resonanceHz,
    Optional<Stated> mechanicalQ,
    Optional<Stated> electricalQ,
    Optional<Stated> equivalentVolumeM3,
    Optional<Stated> inductanceHenry,
    Optional<Stated> areaM2) {

  public DriverKind {
    coilOhm = List.copyOf(coilOhm);
    if (coilOhm.isEmpty()) {
      throw new IllegalArgumentException(
          "driver " + name + " has 0 voice coils; a driver has at least 1");
    }
  }

  /** A kind of which the coils alone are known. */
  public static DriverKind ofCoils(String name, List<Stated> coilOhm) {
    return new DriverKind(
        name,
        coilOhm,
        Optional.empty(),
        Optional.empty(),
        Optional.empty(),
        Optional.empty(),
        Optional.empty(),
        Optional.empty());
  }
}
