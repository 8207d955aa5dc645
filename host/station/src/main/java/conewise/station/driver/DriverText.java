package conewise.station.driver;

import java.util.List;

/** A driver's parameters as plain text of at most 80 columns. */
public final class DriverText {
  private DriverText() {}

  /** Writes a table of the parameters, then why some are missing, then the notes. */
  public static List<String> write(BareDriver driver) {
    FigureText text = new FigureText();
    sweeps(driver.sweeps(), text);
    text.line("");
    text.head();
    text.table(driver.figures());
    text.missing(driver.figures());
    text.line("");
    driver.notes().forEach(note -> text.paragraph("Note: ", note));
    return text.lines();
  }

  private static void sweeps(List<DriverSweep> sweeps, FigureText text) {
    text.line(sweeps.size() == 1 ? "Fitted:" : sweeps.size() + " sweeps, fitted together:");
    for (DriverSweep sweep : sweeps) {
      String words = sweep.state().words() + ": " + sweep.file();
      text.paragraph("  - ", words + ", " + FigureText.extent(sweep.curve()));
    }
  }
}
