package conewise.station.lab;

import java.util.ArrayList;
import java.util.List;

/** Draws what a student is given. */
public final class Assignments {
  private final Student student;
  private final List<Assignment> all;

  private Assignments(Student student, List<Assignment> all) {
    this.student = student;
    this.all = List.copyOf(all);
  }

  /**
   * Draws. Takes a few hundredths of a second an experiment.
   *
   * @param student whose
   * @param experiments which; each is the same whether the others are drawn or not
   */
  public static Assignments of(Student student, List<Experiment> experiments) {
    List<Assignment> drawn = new ArrayList<>();
    experiments.forEach(each -> drawn.add(draw(student, each)));
    return new Assignments(student, drawn);
  }

  /** All eight. */
  public static Assignments of(Student student) {
    return of(student, List.of(Experiment.values()));
  }

  private static Assignment draw(Student student, Experiment experiment) {
    return switch (experiment) {
      case FREE_AIR -> new DriverWork(student).freeAir();
      case ADDED_MASS -> new DriverWork(student).addedMass();
      case CLOSED_BOX -> new DriverWork(student).closedBox();
      case CIRCLE -> new DriverWork(student).circle();
      case VOICE_COIL -> new DriverWork(student).voiceCoil();
      case VENTED_BOX -> new VentedWork(student, "vented box").vented();
      case LOSSES -> new VentedWork(student, "losses").losses();
      case POLARITY -> new PolarityWork(student).polarity();
    };
  }

  Student student() {
    return student;
  }

  List<Assignment> all() {
    return all;
  }
}
