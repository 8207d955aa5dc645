package conewise.simulator.world;

import com.fasterxml.jackson.annotation.JsonProperty;
import conewise.simulator.analog.Contact;
import conewise.simulator.analog.Converter;
import conewise.simulator.analog.Hum;
import conewise.simulator.analog.JigImperfections;
import conewise.simulator.analog.JigImperfections.Amplifier;
import conewise.simulator.analog.Microphone;
import conewise.simulator.box.Wiring.ForeignVoltage;
import java.util.List;
import java.util.Optional;

/** The jig and the bench in the words of a world file: a preset and what departs from it. */
record JigText(
    @JsonProperty(required = true) Preset preset,
    Double driveGain,
    Double driveFilterHz,
    Double bridgeLimitVolt,
    Double bridgeLimitAmpere,
    Double senseOhm,
    ChannelText voltage,
    ChannelText current,
    ChannelText sound,
    Double noiseCodes,
    Double bendCodes,
    HumText hum,
    ContactText contact,
    MicrophoneText microphone,
    List<ForeignText> foreignVoltages) {

  enum Preset {
    ideal,
    nominal,
    typical,
    five_percent
  }

  record ChannelText(Double gain, Double offsetCodes, Double filterHz) {
    Amplifier over(Amplifier given) {
      return new Amplifier(
          or(gain, given.gain()),
          or(offsetCodes, given.offsetCodes()),
          or(filterHz, given.filterHz()));
    }
  }

  record HumText(
      @JsonProperty(required = true) double frequencyHz,
      @JsonProperty(required = true) double leadVolt,
      @JsonProperty(required = true) double injectedAmpere) {}

  record ContactText(
      @JsonProperty(required = true) double ohm, Double looseOhm, Double jumpsPerSecond) {}

  record MicrophoneText(
      @JsonProperty(required = true) double distanceM,
      Double gain,
      String before,
      Double othersM,
      Double couplingHz,
      Double noisePa,
      Double rumblePa) {
    Microphone over(Microphone given) {
      return new Microphone(
          distanceM,
          or(gain, given.gain()),
          Optional.ofNullable(before),
          or(othersM, given.othersM()),
          or(couplingHz, given.couplingHz()),
          or(noisePa, given.noisePa()),
          or(rumblePa, given.rumblePa()));
    }
  }

  record ForeignText(
      @JsonProperty(required = true) double sourceOhm,
      Double steadyVolt,
      Double peakVolt,
      Double frequencyHz) {
    ForeignVoltage voltage() {
      return new ForeignVoltage(sourceOhm, or(steadyVolt, 0), or(peakVolt, 0), or(frequencyHz, 0));
    }
  }

  static double or(Double given, double otherwise) {
    return given == null ? otherwise : given;
  }

  JigImperfections jig(long seed) {
    JigImperfections base =
        switch (preset) {
          case ideal -> JigImperfections.ideal();
          case nominal -> JigImperfections.nominal();
          case typical -> JigImperfections.typical(seed);
          case five_percent -> JigImperfections.fivePercent(seed);
        };
    return new JigImperfections(
        or(driveGain, base.driveGain()),
        or(driveFilterHz, base.driveFilterHz()),
        or(bridgeLimitVolt, base.bridgeLimitVolt()),
        or(bridgeLimitAmpere, base.bridgeLimitAmpere()),
        or(senseOhm, base.senseOhm()),
        channel(voltage, base.voltage()),
        channel(current, base.current()),
        channel(sound, base.sound()),
        new Converter(
            or(noiseCodes, base.converter().noiseCodes()),
            or(bendCodes, base.converter().bendCodes())),
        hum == null ? base.hum() : new Hum(hum.frequencyHz, hum.leadVolt, hum.injectedAmpere),
        contact == null
            ? base.contact()
            : new Contact(contact.ohm, or(contact.looseOhm, 0), or(contact.jumpsPerSecond, 0)),
        microphone == null ? base.microphone() : microphone.over(base.microphone()),
        Optional.ofNullable(foreignVoltages).orElse(List.of()).stream()
            .map(ForeignText::voltage)
            .toList());
  }

  private static Amplifier channel(ChannelText given, Amplifier base) {
    return given == null ? base : given.over(base);
  }
}
