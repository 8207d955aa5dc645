package conewise.analysis.parameter;

import conewise.analysis.outcome.Estimate;
import conewise.analysis.outcome.Outcome;

/**
 * The small-signal parameters of a driver (Small, J. Audio Eng. Soc. 20, 1972), each with its 95 %
 * interval or why it is not there.
 *
 * @param dcResistanceOhm Re of all coils in series, in ohm
 * @param coilInductanceHenry imaginary part of the coil's inductive impedance over angular
 *     frequency, at {@link #COIL_REFERENCE_HZ}
 * @param coilLossOhm real part of the same impedance there, in ohm
 * @param resonanceHz fs
 * @param mechanicalQ Qms at fs, of all mechanical losses
 * @param electricalQ Qes
 * @param totalQ Qts
 * @param movingMassKg Mms
 * @param complianceMPerN Cms at fs
 * @param mechanicalLossNsPerM Rms at fs
 * @param forceFactorTm Bl of all coils in series
 * @param equivalentVolumeM3 Vas
 * @param areaM2 area of the cone, where it follows from a mass and a box together
 */
public record DriverFigures(
    Outcome<Estimate> dcResistanceOhm,
    Outcome<Estimate> coilInductanceHenry,
    Outcome<Estimate> coilLossOhm,
    Outcome<Estimate> resonanceHz,
    Outcome<Estimate> mechanicalQ,
    Outcome<Estimate> electricalQ,
    Outcome<Estimate> totalQ,
    Outcome<Estimate> movingMassKg,
    Outcome<Estimate> complianceMPerN,
    Outcome<Estimate> mechanicalLossNsPerM,
    Outcome<Estimate> forceFactorTm,
    Outcome<Estimate> equivalentVolumeM3,
    Outcome<Estimate> areaM2) {

  /** The frequency at which inductance and loss of the coil are stated. */
  public static final double COIL_REFERENCE_HZ = 200;
}
