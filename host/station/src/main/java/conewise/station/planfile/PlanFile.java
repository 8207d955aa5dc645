package conewise.station.planfile;

import conewise.analysis.plan.BoxPlan;
import conewise.station.files.BadFileException;
import java.nio.file.Path;

/** A plan of a box in a file, YAML or JSON, version 1. */
public final class PlanFile {

  private PlanFile() {}

  /**
   * Reads a plan.
   *
   * @throws BadFileException with every mistake of the file, each with its line
   */
  @SuppressWarnings("DoNotCallSuggester") // for as long as it is being built
  public static BoxPlan read(Path file) throws BadFileException {
    throw new BadFileException(file + " cannot be read yet: reading is being built.");
  }

  /**
   * Reads a plan that comes with the application (folder {@code conewise/plans} of the class path).
   *
   * @param name its name without folder and ending, for example {@code heron}
   * @throws BadFileException when there is none of that name, or it has mistakes
   */
  @SuppressWarnings("DoNotCallSuggester") // for as long as it is being built
  public static BoxPlan bundled(String name) throws BadFileException {
    throw new BadFileException(name + " cannot be read yet: reading is being built.");
  }
}
