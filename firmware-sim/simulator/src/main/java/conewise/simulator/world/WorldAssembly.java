package conewise.simulator.world;

import conewise.simulator.analog.JigImperfections;
import conewise.simulator.box.Air;
import conewise.simulator.box.Box;
import conewise.simulator.box.BoxBuilder;
import conewise.simulator.box.Coil;
import conewise.simulator.box.Driver;
import conewise.simulator.box.HeatExchange;
import conewise.simulator.box.Inductance;
import conewise.simulator.box.Opening;
import conewise.simulator.box.Space;
import conewise.simulator.box.Spread;
import java.util.ArrayList;
import java.util.HashMap;
import java.util.List;
import java.util.Map;

/** Turns the words of a world file into a world; refuses what does not fit together. */
final class WorldAssembly {
  private final WorldText text;
  private final Air air;
  private final Map<String, Space> spaces = new HashMap<>();

  private WorldAssembly(WorldText text) {
    this.text = text;
    this.air = text.air() == null ? Air.ROOM : Air.at(text.air().temperatureCelsius());
  }

  static World of(WorldText text) {
    return new WorldAssembly(text).world();
  }

  private World world() {
    if (!text.name().matches("[a-z][a-z0-9-]{0,47}")) {
      throw refuse(
          "The name of the world is \""
              + text.name()
              + "\"; it must be 1 to 48 of a-z, 0-9 and - and start with a letter.");
    }
    Box box = spread().applyTo(box(), text.seed());
    JigImperfections jig =
        text.jig() == null ? JigImperfections.nominal() : text.jig().jig(text.seed());
    jig.microphone().before().ifPresent(driver -> requireFacesOutside(box, driver));
    return new World(
        text.name(),
        text.about(),
        text.truth() == null ? "not stated" : text.truth(),
        box,
        jig,
        text.seed());
  }

  private static void requireFacesOutside(Box box, String driver) {
    List<String> reached =
        box.openings().stream()
            .filter(each -> each instanceof Opening.DriverOpening)
            .filter(each -> each.front().equals(Space.OUTSIDE) || each.rear().equals(Space.OUTSIDE))
            .map(Opening::name)
            .toList();
    if (!reached.contains(driver)) {
      throw refuse(
          "The microphone is before \""
              + driver
              + "\"; the drivers that face the outside are "
              + reached
              + ".");
    }
  }

  private Box box() {
    BoxBuilder builder = Box.in(air);
    for (WorldText.SpaceText each : list(text.spaces())) {
      Space space = space(each);
      spaces.put(space.name(), space);
      builder.space(space);
    }
    Map<String, Driver> types = new HashMap<>();
    for (WorldText.DriverTypeText each : list(text.driverTypes())) {
      if (types.put(each.name(), driver(each)) != null) {
        throw refuse("The driver type \"" + each.name() + "\" is given twice; each needs its own.");
      }
    }
    list(text.drivers()).forEach(each -> builder.opening(driver(each, types)));
    list(text.vents()).forEach(each -> builder.opening(vent(each)));
    list(text.passiveRadiators()).forEach(each -> builder.opening(radiator(each)));
    list(text.leaks()).forEach(each -> builder.opening(leak(each)));
    list(text.closedLoops()).forEach(builder::closedLoop);
    return builder.wired(text.wiring());
  }

  private Space space(WorldText.SpaceText text) {
    Space plain = Space.litres(text.name(), text.volumeLitre());
    WorldText.LiningText lining = text.absorption();
    if (lining == null) {
      return plain;
    }
    HeatExchange heat = HeatExchange.of(JigText.or(lining.volumeGainPercent(), 0) / 100);
    return plain
        .lined(air, lining.quality(), lining.atHz())
        .with(
            lining.settlingMs() == null
                ? heat
                : new HeatExchange(heat.gain(), lining.settlingMs() / 1000));
  }

  private Opening driver(WorldText.DriverText each, Map<String, Driver> types) {
    Driver type = types.get(each.type());
    if (type == null) {
      throw refuse(
          "Driver "
              + each.name()
              + " is of type \""
              + each.type()
              + "\"; the types are "
              + types.keySet().stream().sorted().toList()
              + ".");
    }
    Driver loaded = type.withAddedMass(JigText.or(each.addedMassGram(), 0) / 1000);
    return new Opening.DriverOpening(each.name(), loaded, each.front(), each.rear());
  }

  private Driver driver(WorldText.DriverTypeText type) {
    String what = "Driver type " + type.name();
    if (type.coils().isEmpty() || type.coils().size() > 4) {
      throw refuse(what + " has " + type.coils().size() + " coils; it needs 1 to 4.");
    }
    boolean physical =
        Choice.of(what)
            .first("mass_gram", type.massGram())
            .first("compliance_mm_per_n", type.complianceMmPerN())
            .first("loss_ns_per_m", type.lossNsPerM())
            .first("bl_tm of each coil", type.coils().get(0).blTm())
            .second("fs_hz", type.fsHz())
            .second("qms", type.qms())
            .second("qes", type.qes())
            .second("vas_litre", type.vasLitre())
            .isFirst();
    double area = type.areaCm2() / 1e4;
    Driver driver;
    if (physical) {
      driver =
          new Driver(
              type.massGram() / 1000,
              type.complianceMmPerN() / 1000,
              type.lossNsPerM(),
              area,
              coils(what, type.coils()),
              Inductance.NONE,
              0);
    } else {
      driver = ofParameters(what, type, area);
    }
    return type.inductance() == null
        ? driver
        : driver.with(inductance(what, type.inductance()), JigText.or(type.coilCoupling(), 0));
  }

  private Driver ofParameters(String what, WorldText.DriverTypeText type, double area) {
    double ohm = type.coils().get(0).reOhm();
    for (WorldText.CoilText coil : type.coils()) {
      if (coil.reOhm() != ohm || coil.blTm() != null || coil.relativeTurns() != null) {
        throw refuse(
            what
                + " is given by fs_hz, qms, qes and vas_litre; its coils must then be alike and"
                + " have re_ohm alone.");
      }
    }
    return Driver.ofParameters(
        air, type.fsHz(), type.qms(), type.qes(), type.vasLitre(), area, ohm, type.coils().size());
  }

  private static List<Coil> coils(String what, List<WorldText.CoilText> texts) {
    List<Coil> coils = new ArrayList<>();
    for (WorldText.CoilText coil : texts) {
      if (coil.blTm() == null) {
        throw refuse(what + " has a coil without bl_tm; add it to each coil.");
      }
      coils.add(new Coil(coil.reOhm(), coil.blTm(), JigText.or(coil.relativeTurns(), 1)));
    }
    return coils;
  }

  private static Inductance inductance(String what, WorldText.InductanceText given) {
    boolean lossy =
        Choice.of("The inductance of " + what)
            .first("k", given.k())
            .first("n", given.n())
            .second("plain_millihenry", given.plainMillihenry())
            .isFirst();
    if (lossy) {
      return Inductance.lossy(given.k(), given.n());
    } else if (given.secondMillihenry() == null && given.secondOhm() == null) {
      return Inductance.plain(given.plainMillihenry() / 1000);
    } else if (given.secondMillihenry() == null || given.secondOhm() == null) {
      throw refuse(
          "The inductance of "
              + what
              + " has one of second_millihenry and second_ohm; it needs both or none.");
    }
    return Inductance.stepped(
        given.plainMillihenry() / 1000, given.secondMillihenry() / 1000, given.secondOhm());
  }

  private Opening vent(WorldText.VentText vent) {
    String what = "Vent " + vent.name();
    double loss = JigText.or(vent.lossPaSPerM3(), 0);
    if (vent.massKgPerM4() != null) {
      return new Opening.Vent(vent.name(), vent.massKgPerM4(), loss, vent.front(), vent.rear());
    }
    boolean tuned =
        Choice.of(what)
            .first("tuning_hz", vent.tuningHz())
            .first("quality", vent.quality())
            .second("length_mm", vent.lengthMm())
            .second("diameter_mm", vent.diameterMm())
            .isFirst();
    if (!tuned) {
      return Opening.Vent.pipe(
          vent.name(),
          air,
          vent.lengthMm() / 1000,
          vent.diameterMm() / 1000,
          loss,
          vent.front(),
          vent.rear());
    }
    Space space = enclosed(what, vent.front(), vent.rear());
    Opening.Vent made =
        Opening.Vent.tuning(vent.name(), air, space, vent.tuningHz(), vent.quality());
    return new Opening.Vent(
        vent.name(), made.massKgPerM4(), made.lossPaSPerM3(), vent.front(), vent.rear());
  }

  private static Opening radiator(WorldText.PassiveRadiatorText each) {
    return new Opening.PassiveRadiator(
        each.name(),
        each.massGram() / 1000,
        each.complianceMmPerN() / 1000,
        each.lossNsPerM(),
        each.areaCm2() / 1e4,
        each.front(),
        each.rear());
  }

  private Opening leak(WorldText.LeakText leak) {
    String what = "Leak " + leak.name();
    boolean direct =
        Choice.of(what)
            .first("resistance_pa_s_per_m3", leak.resistancePaSPerM3())
            .second("quality", leak.quality())
            .second("at_hz", leak.atHz())
            .isFirst();
    if (direct) {
      return new Opening.Leak(leak.name(), leak.resistancePaSPerM3(), leak.front(), leak.rear());
    }
    Space space = enclosed(what, leak.front(), leak.rear());
    Opening.Leak made =
        Opening.Leak.ofQuality(leak.name(), air, space, leak.quality(), leak.atHz());
    return new Opening.Leak(leak.name(), made.resistancePaSPerM3(), leak.front(), leak.rear());
  }

  /** The one enclosed space of an opening to the outside, to which its quality refers. */
  private Space enclosed(String what, String front, String rear) {
    String inside = front.equals(Space.OUTSIDE) ? rear : front;
    boolean out = front.equals(Space.OUTSIDE) || rear.equals(Space.OUTSIDE);
    if (!out || !spaces.containsKey(inside)) {
      throw refuse(
          what
              + " is given by its quality or tuning and lies between \""
              + front
              + "\" and \""
              + rear
              + "\"; that needs \"outside\" on one side and one of "
              + spaces.keySet().stream().sorted().toList()
              + " on the other.");
    }
    return spaces.get(inside);
  }

  private Spread spread() {
    WorldText.SpreadText given = text.spread();
    return given == null
        ? Spread.NONE
        : new Spread(
            given.massPercent() / 100,
            given.compliancePercent() / 100,
            given.lossPercent() / 100,
            given.forceFactorPercent() / 100,
            given.resistancePercent() / 100,
            given.inductancePercent() / 100);
  }

  private static <T> List<T> list(List<T> given) {
    return given == null ? List.of() : given;
  }

  static IllegalArgumentException refuse(String sentence) {
    return new IllegalArgumentException(sentence);
  }
}
