package conewise.simulator.analog;

import conewise.simulator.box.Box;
import conewise.simulator.box.BoxEquations;
import conewise.simulator.box.Wiring;
import conewise.simulator.box.Wiring.ForeignVoltage;
import conewise.simulator.dynamics.EquationSheet;
import conewise.simulator.dynamics.Expression;
import conewise.simulator.dynamics.StateSpace;
import java.util.ArrayList;
import java.util.List;

/**
 * The differential equations of jig and box together.
 *
 * <p>Inputs: {@code drive} (what the drive code asks of the bridge, in volt), {@code bridge} (the
 * bridge's voltage while it is limited), and one for each foreign voltage. Outputs: the filtered
 * {@code voltage}, {@code current} and {@code sound} that the converter sees (V; A as the nominal
 * sense resistor would have it; Pa; before gain errors), then {@code bridge wanted} and {@code
 * bridge current} for the limits.
 *
 * @param system the equations
 * @param foreign the voltages behind the inputs from the third on
 */
public record AnalogEquations(StateSpace system, List<ForeignVoltage> foreign) {
  static final int VOLTAGE = 0;
  static final int BRIDGE_WANTED = 3;
  static final int BRIDGE_CURRENT = 4;

  /** Copies the list. */
  public AnalogEquations {
    foreign = List.copyOf(foreign);
  }

  /**
   * Writes the equations.
   *
   * @param contactOhm resistance of the clips
   * @param limited whether the input {@code bridge} drives the box in place of the drive filter
   */
  public static AnalogEquations of(
      Box box, JigImperfections jig, double contactOhm, boolean limited) {
    EquationSheet sheet = new EquationSheet();
    Expression drive = sheet.input("drive");
    Expression held = sheet.input("bridge");
    Expression first = lowPass(sheet, "drive filter 1", drive, jig.driveFilterHz());
    Expression wanted = lowPass(sheet, "drive filter 2", first, jig.driveFilterHz());
    Expression bridge = limited ? held : wanted;
    BoxEquations equations =
        BoxEquations.write(sheet, bridge, terminals -> loop(terminals, jig, contactOhm), box);
    Expression current = equations.current();
    Expression voltage = bridge.plus(-jig.senseOhm(), current);
    Expression shown = current.times(jig.senseOhm() / JigHardware.nominal().senseOhm());
    Expression sound = sound(sheet, equations, jig.microphone(), box);
    sheet.output("voltage", lowPass(sheet, "voltage", voltage, jig.voltage().filterHz()));
    sheet.output("current", lowPass(sheet, "current", shown, jig.current().filterHz()));
    sheet.output("sound", lowPass(sheet, "sound", sound, jig.sound().filterHz()));
    sheet.output("bridge wanted", wanted);
    sheet.output("bridge current", current);
    return new AnalogEquations(
        sheet.stateSpace(),
        equations.foreign().stream().map(BoxEquations.Foreign::source).toList());
  }

  private static Expression sound(
      EquationSheet sheet, BoxEquations equations, Microphone microphone, Box box) {
    double density = box.air().densityKgPerM3();
    Expression pressure =
        microphone.before().isEmpty()
            ? equations.acceleration().times(density / (4 * Math.PI * microphone.distanceM()))
            : equations
                .nearField(microphone.before().get(), microphone.distanceM(), microphone.othersM())
                .times(density);
    Expression heard = pressure.times(microphone.gain());
    return microphone.couplingHz() == 0
        ? heard
        : heard.minus(lowPass(sheet, "microphone", heard, microphone.couplingHz()));
  }

  private static Expression lowPass(
      EquationSheet sheet, String name, Expression input, double cornerHz) {
    Expression state = sheet.state(name + " filter");
    sheet.derivative(state, input.minus(state).times(2 * Math.PI * cornerHz));
    return state;
  }

  /** Sense resistor, clips and leads in series; what lies on the terminals is beside the box. */
  private static Wiring loop(Wiring box, JigImperfections jig, double contactOhm) {
    List<Wiring> beside = new ArrayList<>(List.of(box));
    beside.addAll(jig.foreign());
    Hum hum = jig.hum();
    if (hum.injectedAmpere() > 0) {
      beside.add(
          new ForeignVoltage(
              Hum.INJECTION_OHM, 0, hum.injectedAmpere() * Hum.INJECTION_OHM, hum.frequencyHz()));
    }
    List<Wiring> loop = new ArrayList<>();
    loop.add(Wiring.ohm(jig.senseOhm()));
    loop.add(Wiring.ohm(contactOhm));
    loop.add(new Wiring.Parallel(beside));
    if (hum.leadVolt() > 0) {
      loop.add(new ForeignVoltage(1e-3, 0, hum.leadVolt(), hum.frequencyHz()));
    }
    return new Wiring.Series(loop);
  }
}
