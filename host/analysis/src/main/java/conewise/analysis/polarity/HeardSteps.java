package conewise.analysis.polarity;

import conewise.analysis.sampling.Capture;
import conewise.analysis.sampling.SampledChannel;

/**
 * A record of several steps into a box and of a microphone before one of its cones.
 *
 * @param drive voltage across the terminals and current into them; steps up and down, with rest
 *     between them, the terminal marked + positive
 * @param soundPascal the microphone, a rise of pressure positive; as long as the drive and of the
 *     same spacing
 * @param pascalPerCode what one step of the converter stands for in the microphone's channel,
 *     positive
 */
public record HeardSteps(Capture drive, SampledChannel soundPascal, double pascalPerCode) {

  /** Checks lengths, spacing and the converter's step. */
  public HeardSteps {
    SampledChannel voltage = drive.voltageVolt();
    if (voltage.length() != soundPascal.length()
        || voltage.intervalSeconds() != soundPascal.intervalSeconds()) {
      throw new IllegalArgumentException(
          "the drive has "
              + voltage.length()
              + " samples every "
              + voltage.intervalSeconds()
              + " s and the sound "
              + soundPascal.length()
              + " every "
              + soundPascal.intervalSeconds()
              + " s; both must be alike");
    }
    if (!(pascalPerCode > 0) || Double.isInfinite(pascalPerCode)) {
      throw new IllegalArgumentException(
          "a converter step is " + pascalPerCode + " Pa; it must be positive and finite");
    }
  }
}
