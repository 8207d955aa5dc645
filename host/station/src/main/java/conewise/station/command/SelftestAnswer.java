package conewise.station.command;

import com.fasterxml.jackson.databind.node.ArrayNode;
import com.fasterxml.jackson.databind.node.ObjectNode;
import conewise.jig.sweep.OpenClipsProof;
import conewise.protocol.JigIdentity;
import conewise.station.answer.ExitCode;
import conewise.station.answer.JsonAnswer;
import conewise.station.answer.Screen;
import conewise.station.selftest.CheckReading;
import conewise.station.selftest.Drift;
import java.io.PrintStream;
import java.nio.file.Path;
import java.time.format.DateTimeFormatter;
import java.util.List;
import java.util.Locale;
import java.util.Optional;

/**
 * What a self-test came to.
 *
 * @param serial the jig's serial number, if it has one
 * @param calibration what is to be said of the calibration
 * @param open what was read with open clips
 * @param resistor what the check resistor gave, if one was read
 */
record SelftestAnswer(
    Optional<String> serial,
    String calibration,
    OpenClipsProof.Report open,
    Optional<Compared> resistor) {

  private static final int SHOWN = 5;

  /** A check resistor's reading and what it is held against. */
  record Compared(
      CheckReading reading, List<CheckReading> earlier, Drift drift, Path file, int damagedLines) {}

  static SelftestAnswer of(JigIdentity jig, String calibration, OpenClipsProof.Report open) {
    return new SelftestAnswer(jig.jig().serial(), calibration, open, Optional.empty());
  }

  SelftestAnswer with(Compared compared) {
    return new SelftestAnswer(serial, calibration, open, Optional.of(compared));
  }

  boolean openClipsAreRight() {
    return !open.spoilt() && open.items().stream().allMatch(OpenClipsProof.Item::right);
  }

  ExitCode exit() {
    if (open.spoilt()) {
      return ExitCode.NOT_JUDGED;
    }
    if (!openClipsAreRight()) {
      return ExitCode.FAIL;
    }
    return resistor
        .map(
            each ->
                switch (each.drift().word()) {
                  case GOOD -> ExitCode.PASS;
                  case DRIFTED -> ExitCode.FAIL;
                  case UNDECIDED -> ExitCode.UNDECIDED;
                })
        .orElse(ExitCode.PASS);
  }

  /** The one word: good, drifted, undecided, faulty or not-tested. */
  private String word() {
    if (open.spoilt()) {
      return "not-tested";
    }
    if (!openClipsAreRight()) {
      return "faulty";
    }
    return resistor.map(each -> word(each.drift().word())).orElse("good");
  }

  private static String word(Drift.Word word) {
    return word.name().toLowerCase(Locale.ROOT);
  }

  void show(Screen screen, boolean json) {
    if (json) {
      screen.out().println(json());
    } else {
      text(screen.out());
    }
  }

  private void text(PrintStream out) {
    out.println(headline());
    out.println();
    out.println("Jig: " + serial.orElse("no serial number"));
    out.println("Calibration: " + calibration);
    open.findings()
        .forEach(finding -> out.println(finding.sentence() + "; " + finding.nextStep() + "."));
    for (OpenClipsProof.Item item : open.items()) {
      out.println(
          text(
              "%-10s%s: %.3g%s (allowed %.3g to %.3g)",
              item.right() ? "right" : "WRONG",
              item.what(),
              item.value(),
              item.unit().isEmpty() ? "" : " " + item.unit(),
              item.low(),
              item.high()));
      if (!item.right()) {
        out.println("          " + item.nextStep());
      }
    }
    resistor.ifPresent(each -> text(out, each));
  }

  private String headline() {
    return switch (word()) {
      case "not-tested" -> "NOT TESTED: something else drives the terminals.";
      case "faulty" -> "FAULTY: something is wrong with open clips; see WRONG below.";
      case "drifted" ->
          "DRIFTED: calibrate again. If it stays, the check resistor or the jig has changed.";
      case "undecided" -> "UNDECIDED: what is not known is more than the limit allows; see below.";
      default ->
          resistor.isPresent()
              ? "GOOD: the check resistor reads as it did."
              : "GOOD with open clips. The scale of impedance takes a check resistor (--resistor).";
    };
  }

  private static void text(PrintStream out, Compared each) {
    CheckReading reading = each.reading();
    out.println();
    out.println(text("Check resistor %s: read %.4f ohm.", reading.resistor(), reading.readOhm()));
    comparison(out, "Against its value", each.drift().againstValue());
    each.drift()
        .againstFirst()
        .ifPresentOrElse(
            first -> comparison(out, "Against its first reading", first),
            () ->
                out.println("This is its first reading: from now on a change is told against it."));
    out.println(text("Limit: %.3g %% either way.", 100 * each.drift().limitFraction()));
    if (each.drift().word() == Drift.Word.UNDECIDED) {
      out.println(
          "A resistor that is known better, or a wider --limit, decides. So does a second reading,"
              + " if only change matters.");
    }
    List<CheckReading> last =
        each.earlier().subList(Math.max(0, each.earlier().size() - SHOWN), each.earlier().size());
    for (CheckReading then : last) {
      out.println(
          text(
              "  %s  %.4f ohm, %s",
              DateTimeFormatter.ofPattern("d MMM yyyy HH:mm", Locale.ENGLISH).format(then.taken()),
              then.readOhm(),
              then.calibration().orElse("nominal scales")));
    }
    if (each.damagedLines() > 0) {
      out.println(each.damagedLines() + " lines of that file are damaged and were passed over.");
    }
    out.println("Kept in " + each.file());
  }

  private static void comparison(PrintStream out, String what, Drift.Comparison compared) {
    out.println(
        text(
            "%s, %.4f ohm: %+.2f %%, 95 %% from %+.2f to %+.2f %%: %s.",
            what,
            compared.expectedOhm(),
            100 * compared.deviation(),
            100 * (compared.deviation() - compared.expanded()),
            100 * (compared.deviation() + compared.expanded()),
            word(compared.word())));
  }

  private static String text(String format, Object... values) {
    return String.format(Locale.ROOT, format, values);
  }

  private ObjectNode json() {
    ObjectNode object = JsonAnswer.of("selftest", exit()).put("word", word());
    serial.ifPresent(each -> object.put("serial", each));
    object.put("calibration", calibration);
    JsonAnswer.findings(object, open.findings());
    ArrayNode items = object.putArray("open_clips");
    for (OpenClipsProof.Item item : open.items()) {
      items
          .addObject()
          .put("what", item.what())
          .put("value", item.value())
          .put("unit", item.unit())
          .put("low", item.low())
          .put("high", item.high())
          .put("right", item.right());
    }
    resistor.ifPresent(each -> json(object.putObject("check_resistor"), each));
    return object;
  }

  private static void json(ObjectNode node, Compared each) {
    node.put("name", each.reading().resistor())
        .put("value_ohm", each.reading().valueOhm())
        .put("tolerance_percent", 100 * each.reading().toleranceFraction())
        .put("read_ohm", each.reading().readOhm())
        .put("limit_percent", 100 * each.drift().limitFraction())
        .put("earlier_readings", each.earlier().size())
        .put("file", each.file().toString());
    json(node.putObject("against_value"), each.drift().againstValue());
    each.drift().againstFirst().ifPresent(first -> json(node.putObject("against_first"), first));
  }

  private static void json(ObjectNode node, Drift.Comparison compared) {
    node.put("expected_ohm", compared.expectedOhm())
        .put("deviation_percent", 100 * compared.deviation())
        .put("low_percent", 100 * (compared.deviation() - compared.expanded()))
        .put("high_percent", 100 * (compared.deviation() + compared.expanded()))
        .put("word", word(compared.word()));
  }
}
