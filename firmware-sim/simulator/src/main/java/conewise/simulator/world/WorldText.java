package conewise.simulator.world;

import com.fasterxml.jackson.annotation.JsonProperty;
import com.fasterxml.jackson.databind.annotation.JsonDeserialize;
import conewise.simulator.box.Wiring;
import java.util.List;

/**
 * The words of a world file as they stand; a key is a component's name in lower case with
 * underscores. What is not required may be absent, and is null here and nowhere else.
 */
record WorldText(
    @JsonProperty(required = true) String name,
    @JsonProperty(required = true) String about,
    String truth,
    @JsonProperty(required = true) long seed,
    AirText air,
    List<SpaceText> spaces,
    List<DriverTypeText> driverTypes,
    List<DriverText> drivers,
    List<VentText> vents,
    List<PassiveRadiatorText> passiveRadiators,
    List<LeakText> leaks,
    @JsonProperty(required = true) @JsonDeserialize(using = WiringReader.class) Wiring wiring,
    @JsonDeserialize(contentUsing = WiringReader.class) List<Wiring> closedLoops,
    SpreadText spread,
    JigText jig) {

  record AirText(@JsonProperty(required = true) double temperatureCelsius) {}

  record SpaceText(
      @JsonProperty(required = true) String name,
      @JsonProperty(required = true) double volumeLitre,
      LiningText absorption) {}

  record LiningText(
      @JsonProperty(required = true) double quality,
      @JsonProperty(required = true) double atHz,
      Double volumeGainPercent,
      Double settlingMs) {}

  record DriverTypeText(
      @JsonProperty(required = true) String name,
      @JsonProperty(required = true) double areaCm2,
      Double massGram,
      Double complianceMmPerN,
      Double lossNsPerM,
      Double fsHz,
      Double qms,
      Double qes,
      Double vasLitre,
      @JsonProperty(required = true) List<CoilText> coils,
      InductanceText inductance,
      Double coilCoupling) {}

  record CoilText(@JsonProperty(required = true) double reOhm, Double blTm, Double relativeTurns) {}

  record InductanceText(
      Double k, Double n, Double plainMillihenry, Double secondMillihenry, Double secondOhm) {}

  record DriverText(
      @JsonProperty(required = true) String name,
      @JsonProperty(required = true) String type,
      @JsonProperty(required = true) String front,
      @JsonProperty(required = true) String rear,
      Double addedMassGram) {}

  record VentText(
      @JsonProperty(required = true) String name,
      @JsonProperty(required = true) String front,
      @JsonProperty(required = true) String rear,
      Double tuningHz,
      Double quality,
      Double lengthMm,
      Double diameterMm,
      Double massKgPerM4,
      Double lossPaSPerM3) {}

  record PassiveRadiatorText(
      @JsonProperty(required = true) String name,
      @JsonProperty(required = true) String front,
      @JsonProperty(required = true) String rear,
      @JsonProperty(required = true) double massGram,
      @JsonProperty(required = true) double complianceMmPerN,
      @JsonProperty(required = true) double lossNsPerM,
      @JsonProperty(required = true) double areaCm2) {}

  record LeakText(
      @JsonProperty(required = true) String name,
      @JsonProperty(required = true) String front,
      @JsonProperty(required = true) String rear,
      Double resistancePaSPerM3,
      Double quality,
      Double atHz) {}

  record SpreadText(
      @JsonProperty(required = true) double massPercent,
      @JsonProperty(required = true) double compliancePercent,
      @JsonProperty(required = true) double lossPercent,
      @JsonProperty(required = true) double forceFactorPercent,
      @JsonProperty(required = true) double resistancePercent,
      @JsonProperty(required = true) double inductancePercent) {}
}
