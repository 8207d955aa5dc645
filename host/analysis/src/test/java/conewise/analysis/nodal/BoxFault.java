package conewise.analysis.nodal;

import conewise.analysis.nodal.BoxFamily.Built;
import conewise.analysis.nodal.BoxFamily.Kind;
import java.util.ArrayList;
import java.util.List;
import java.util.Random;
import java.util.function.Consumer;

/** Ways in which a drawn box can be built wrong. */
public enum BoxFault {
  DRIVER_REVERSED,
  TWO_OF_FOUR_REVERSED,
  COIL_REVERSED,
  COIL_OPEN,
  COIL_SHORTED,
  WIRING_EXCHANGED,
  VENT_BLOCKED,
  VENT_LONG,
  VENT_SHORT;

  private boolean possible(Built built) {
    int drivers = built.box().drivers.size();
    return switch (this) {
      case DRIVER_REVERSED -> drivers > 1 && !built.separate();
      case TWO_OF_FOUR_REVERSED -> drivers == 4 && !built.separate();
      case COIL_REVERSED -> built.box().drivers.get(0).coils.size() > 1;
      case COIL_OPEN, COIL_SHORTED, WIRING_EXCHANGED -> built.plan().wiring().coils().size() > 1;
      case VENT_BLOCKED, VENT_LONG, VENT_SHORT -> built.kind() == Kind.VENTED;
    };
  }

  public static List<BoxFault> possibleIn(Built built) {
    List<BoxFault> list = new ArrayList<>();
    for (BoxFault fault : values()) {
      if (fault.possible(built)) {
        list.add(fault);
      }
    }
    return list;
  }

  /** Builds it in. */
  public void apply(Built built, Random r) {
    NodalBox box = built.box();
    List<NodalBox.Driver> drivers = box.drivers;
    NodalBox.Driver one = drivers.get(r.nextInt(drivers.size()));
    NodalBox.Coil coil = one.coils.get(r.nextInt(one.coils.size()));
    Consumer<NodalBox.Driver> reverse = d -> d.coils.forEach(c -> c.force = -c.force);
    switch (this) {
      case DRIVER_REVERSED -> reverse.accept(one);
      case TWO_OF_FOUR_REVERSED -> {
        reverse.accept(drivers.get(1));
        reverse.accept(drivers.get(2));
      }
      case COIL_REVERSED -> coil.force = -coil.force;
      case COIL_OPEN -> coil.open = true;
      case COIL_SHORTED -> coil.shorted = true;
      case WIRING_EXCHANGED -> {
        boolean coilsSeries = one.coils.size() > 1 && one.coils.get(0).to == one.coils.get(1).from;
        boolean driversSeries = drivers.size() > 1 && drivers.get(1).coils.get(0).from != 1;
        if (one.coils.size() > 1) {
          BoxFamily.wire(box, !coilsSeries, driversSeries);
        } else {
          BoxFamily.wire(box, coilsSeries, !driversSeries);
        }
      }
      case VENT_BLOCKED -> box.spaces.forEach(s -> s.tuningHz = 0);
      case VENT_LONG -> box.spaces.forEach(s -> s.tuningHz *= 0.85);
      case VENT_SHORT -> box.spaces.forEach(s -> s.tuningHz *= 1.2);
    }
  }
}
