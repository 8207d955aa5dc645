package conewise.analysis.diagnosis;

import java.util.Arrays;
import java.util.List;

/**
 * The kinds of fault that are looked for, each with how often it is met: the probability that one
 * place where it can be has it (a driver, a coil, a vent, a space, or the box). They are guesses
 * from common practice, from memory; a shop that knows better sets its own (see {@link Rates}).
 */
public enum FaultKind {
  BOX_REVERSED("box-reversed", 0.005),
  DRIVER_REVERSED("driver-reversed", 0.01),
  COIL_REVERSED("coil-reversed", 0.004),
  COIL_OPEN("coil-open", 0.003),
  COIL_SHORTED("coil-shorted", 0.001),
  DRIVER_DISCONNECTED("driver-disconnected", 0.003),
  WIRED_OTHERWISE("wired-otherwise", 0.004),
  VENT_CLOSED("vent-closed", 0.002),
  VENT_MISSING("vent-missing", 0.002),
  VENT_TOO_LONG("vent-too-long", 0.004),
  VENT_TOO_SHORT("vent-too-short", 0.004),
  VOLUME_TOO_SMALL("volume-too-small", 0.002),
  VOLUME_TOO_LARGE("volume-too-large", 0.002),
  LEAK("leak", 0.01),
  HOLE("hole", 0.003),
  STUFFING_UNPLANNED("stuffing-unplanned", 0.005),
  STUFFING_MISSING("stuffing-missing", 0.005),
  WRONG_DRIVER("wrong-driver", 0.003),
  DRIVER_ASTRAY("driver-astray", 0.002),
  CONE_SEIZED("cone-seized", 0.001),
  CONE_RUBS("cone-rubs", 0.003),
  RADIATOR_SEIZED("radiator-seized", 0.002),
  RADIATOR_HEAVY("radiator-heavy", 0.003),
  RADIATOR_LIGHT("radiator-light", 0.003),
  RESISTANCE_ADDED("resistance-added", 0.004),
  SOURCE_CONNECTED("source-connected", 0.001),
  OTHER_BOX("other-box", 0.002),
  /** One that who uses the library has added, and that states its rate itself. */
  OWN("own", 0);

  private final String id;
  private final double usualRate;

  FaultKind(String id, double usualRate) {
    this.id = id;
    this.usualRate = usualRate;
  }

  /** The kinds that have a rate of their own, in their order. */
  public static List<FaultKind> rated() {
    return Arrays.stream(values()).filter(kind -> kind.usualRate > 0).toList();
  }

  /** A stable short name for records and programs. */
  public String id() {
    return id;
  }

  /** What its rate is counted by: at each such place of a box it may be met. */
  public FaultPlace place() {
    return switch (this) {
      case BOX_REVERSED, WIRED_OTHERWISE, RESISTANCE_ADDED, SOURCE_CONNECTED, OTHER_BOX, OWN ->
          FaultPlace.BOX;
      case DRIVER_REVERSED,
          DRIVER_DISCONNECTED,
          WRONG_DRIVER,
          DRIVER_ASTRAY,
          CONE_SEIZED,
          CONE_RUBS ->
          FaultPlace.DRIVER;
      case COIL_REVERSED, COIL_OPEN, COIL_SHORTED -> FaultPlace.COIL;
      case VENT_CLOSED, VENT_MISSING, VENT_TOO_LONG, VENT_TOO_SHORT -> FaultPlace.VENT;
      case VOLUME_TOO_SMALL, VOLUME_TOO_LARGE, LEAK, HOLE, STUFFING_UNPLANNED, STUFFING_MISSING ->
          FaultPlace.SPACE;
      case RADIATOR_SEIZED, RADIATOR_HEAVY, RADIATOR_LIGHT -> FaultPlace.RADIATOR;
    };
  }

  /** How often it is met where nothing else is stated; 0 of {@link #OWN}. */
  public double usualRate() {
    return usualRate;
  }
}
