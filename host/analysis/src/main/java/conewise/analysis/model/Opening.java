package conewise.analysis.model;

/**
 * A way for air from one space to another, or to the outside. Its flow counts from the space behind
 * to the space before it.
 */
public sealed interface Opening {
  /** Its name, unlike that of any other opening. */
  String name();

  /** The space that air leaves when the opening moves forward. */
  String behind();

  /** The space that air enters when the opening moves forward. */
  String before();

  /**
   * A driver: a current into the first lead of a coil drives the cone forward.
   *
   * @param name its name
   * @param driver its parameters
   * @param behind the space on the magnet's side
   * @param before the space on the cone's side
   */
  record Mounted(String name, Driver driver, String behind, String before) implements Opening {
    public Mounted {
      requireEnds(name, behind, before);
    }
  }

  /**
   * A vent.
   *
   * @param name its name
   * @param tuningHz what it alone tunes the space behind it to
   * @param quality of its own loss at that frequency
   * @param behind the space that it tunes
   * @param before where it leads to
   */
  record Vent(String name, double tuningHz, double quality, String behind, String before)
      implements Opening {
    public Vent {
      requireEnds(name, behind, before);
      Require.positive("the tuning of vent " + name, tuningHz, "Hz");
      Require.positive("the Q of vent " + name, quality, "");
    }
  }

  /**
   * A passive radiator.
   *
   * @param name its name
   * @param resonanceHz its resonance in free air
   * @param mechanicalQ its quality there
   * @param equivalentVolumeM3 the volume of air as compliant as its suspension
   * @param behind the space that drives it
   * @param before where it radiates to
   */
  record PassiveRadiator(
      String name,
      double resonanceHz,
      double mechanicalQ,
      double equivalentVolumeM3,
      String behind,
      String before)
      implements Opening {
    public PassiveRadiator {
      requireEnds(name, behind, before);
      Require.positive("the resonance of passive radiator " + name, resonanceHz, "Hz");
      Require.positive("the Q of passive radiator " + name, mechanicalQ, "");
      Require.positive("the Vas of passive radiator " + name, equivalentVolumeM3, "m3");
    }
  }

  /**
   * A leak: a resistance to flow.
   *
   * @param name its name
   * @param quality what it leaves of the space behind it at {@link Space#LOSS_REFERENCE_HZ}: R = Q
   *     / (w C)
   * @param behind the space that leaks
   * @param before where to
   */
  record Leak(String name, double quality, String behind, String before) implements Opening {
    public Leak {
      requireEnds(name, behind, before);
      Require.positive("the Q of leak " + name, quality, "");
    }
  }

  private static void requireEnds(String name, String behind, String before) {
    Require.named("an opening", name);
    if (behind.equals(before) && !behind.equals(Space.OUTSIDE)) {
      throw new IllegalArgumentException(
          "both sides of " + name + " are in " + behind + "; they must differ");
    }
  }
}
