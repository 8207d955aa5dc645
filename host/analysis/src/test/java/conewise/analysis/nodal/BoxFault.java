package conewise.analysis.nodal;

import conewise.analysis.nodal.BoxFamily.Built;
import conewise.analysis.plan.BoxPlan;
import conewise.analysis.plan.BoxPlan.Kind;
import java.util.ArrayList;
import java.util.List;
import java.util.Random;
import java.util.function.Consumer;

/** Ways in which a drawn box can be built wrong. */
public enum BoxFault {
  DRIVER_REVERSED(p -> p.drivers().size() > 1 && !p.separateSpaces()),
  TWO_OF_FOUR_REVERSED(p -> p.drivers().size() == 4 && !p.separateSpaces()),
  COIL_REVERSED(p -> p.drivers().get(0).coilOhm().size() > 1),
  COIL_OPEN(p -> p.wiring().coils().size() > 1),
  COIL_SHORTED(p -> p.wiring().coils().size() > 1),
  WIRING_EXCHANGED(p -> p.wiring().coils().size() > 1),
  VENT_BLOCKED(p -> p.kind() == Kind.VENTED),
  VENT_LONG(p -> p.kind() == Kind.VENTED),
  VENT_SHORT(p -> p.kind() == Kind.VENTED);

  private final java.util.function.Predicate<BoxPlan> possible;

  BoxFault(java.util.function.Predicate<BoxPlan> possible) {
    this.possible = possible;
  }

  public static List<BoxFault> possibleIn(BoxPlan plan) {
    List<BoxFault> list = new ArrayList<>();
    for (BoxFault fault : values()) {
      if (fault.possible.test(plan)) {
        list.add(fault);
      }
    }
    return list;
  }

  /** Builds it in; false where this box has no room for it. */
  public boolean apply(Built built, Random r) {
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
    return true;
  }
}
