package conewise.station.command;

import com.fasterxml.jackson.databind.node.ArrayNode;
import com.fasterxml.jackson.databind.node.ObjectNode;
import conewise.analysis.impedance.ImpedanceCurve;
import conewise.analysis.impedance.OnePortCorrection;
import conewise.station.answer.ExitCode;
import conewise.station.answer.JsonAnswer;
import conewise.station.answer.Screen;
import conewise.station.calibrating.StoredCalibration;
import java.io.PrintStream;
import java.nio.file.Path;
import java.util.List;
import java.util.Locale;

/**
 * What a calibration came to.
 *
 * @param file where it is
 * @param named whether somebody named that file, so that it is not found by itself
 * @param notes what a person should know beside it
 */
record CalibrationAnswer(StoredCalibration stored, Path file, boolean named, List<String> notes) {

  void show(Screen screen, boolean json) {
    if (json) {
      screen.out().println(json());
    } else {
      text(screen.out());
    }
  }

  private OnePortCorrection correction() {
    return stored.calibration().correction();
  }

  private double leadOhm() {
    return middle(correction().shorted());
  }

  /** What the uncalibrated jig reads over the true value. */
  private double scale() {
    return (middle(correction().standard()) - leadOhm()) / correction().standardOhm();
  }

  private double uncertainty() {
    return correction().standardUncertaintyOhm() / correction().standardOhm();
  }

  private static double middle(ImpedanceCurve curve) {
    return curve.points().get(curve.points().size() / 2).resistanceOhm();
  }

  private ObjectNode json() {
    ObjectNode object =
        JsonAnswer.of("calibrate", ExitCode.PASS)
            .put("calibration", stored.calibration().id())
            .put("resistor_ohm", correction().standardOhm())
            .put("tolerance_percent", 100 * stored.toleranceFraction())
            .put("lead_ohm", leadOhm())
            .put("scale_read", scale())
            .put("scale_standard_uncertainty", uncertainty());
    stored.jig().jig().serial().ifPresent(serial -> object.put("serial", serial));
    stored.temperatureCelsius().ifPresent(celsius -> object.put("temperature_celsius", celsius));
    ArrayNode said = object.putArray("notes");
    notes.forEach(said::add);
    return object.put("file", file.toString());
  }

  private void text(PrintStream out) {
    out.println("Calibrated as " + stored.calibration().id() + ".");
    out.println(
        text(
            "The resistor, %.4g ohm within %.3g %%, leaves the scale of impedance a standard"
                + " uncertainty of %.2g %%.",
            correction().standardOhm(), 100 * stored.toleranceFraction(), 100 * uncertainty()));
    out.println(
        text(
            "Clips and leads read %.3f ohm; beyond them the uncalibrated jig reads %.3f of the"
                + " true value.",
            leadOhm(), scale()));
    out.println(
        stored
            .temperatureCelsius()
            .map(celsius -> text("The room was at %.1f degrees Celsius.", celsius))
            .orElse("The room's temperature is unknown (--temperature)."));
    notes.forEach(note -> out.println("Note: " + note));
    out.println("Written: " + file);
    out.println(
        named
            ? "Use it with: --calibration " + file
            : "sweep and check find it by the jig's serial number.");
  }

  private static String text(String format, Object... values) {
    return String.format(Locale.ROOT, format, values);
  }
}
