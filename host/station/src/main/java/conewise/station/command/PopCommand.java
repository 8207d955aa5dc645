package conewise.station.command;

import com.fasterxml.jackson.databind.node.ObjectNode;
import conewise.analysis.diagnosis.Motion;
import conewise.analysis.plan.PlannedBox;
import conewise.jig.client.JigClient;
import conewise.station.answer.CommandFailure;
import conewise.station.answer.ExitCode;
import conewise.station.answer.JsonAnswer;
import conewise.station.answer.ProgressLine;
import conewise.station.files.BadFileException;
import conewise.station.files.Existing;
import conewise.station.keeping.RunShelf;
import conewise.station.measuring.JigChoice;
import conewise.station.measuring.StopRequest;
import conewise.station.planfile.PlannedBoxFile;
import conewise.station.pop.HearingCones;
import conewise.station.pop.MicrophoneBench;
import conewise.station.pop.PersonMicrophone;
import conewise.station.pop.PopFile;
import conewise.station.pop.PopOutcome;
import conewise.station.pop.PopPlan;
import conewise.station.pop.PopRecord;
import conewise.station.pop.PopTalk;
import conewise.station.pop.PopWay;
import conewise.station.pop.Steps;
import conewise.station.pop.VirtualMicrophone;
import conewise.station.pop.WatchingCones;
import java.io.BufferedReader;
import java.io.IOException;
import java.io.InputStreamReader;
import java.io.UncheckedIOException;
import java.nio.charset.Charset;
import java.nio.file.Path;
import java.time.ZoneId;
import java.time.ZonedDateTime;
import java.time.format.DateTimeFormatter;
import java.time.temporal.ChronoUnit;
import java.util.List;
import java.util.Map;
import java.util.Optional;
import java.util.concurrent.Callable;
import java.util.function.Supplier;
import picocli.CommandLine.Command;
import picocli.CommandLine.Mixin;
import picocli.CommandLine.Option;
import picocli.CommandLine.ParentCommand;

/** {@code pop}: which way each cone sets out, heard or watched, kept for a verdict. */
@Command(
    name = "pop",
    mixinStandardHelpOptions = true,
    description = {
      "Finds which way each cone sets out when + becomes positive.",
      "By itself it listens by a microphone on the jig, and where there is none guides a pop test"
          + " with a dry cell: the jig's own step moves most cones by a tenth of a millimetre or"
          + " two, too little to watch."
    },
    footer = "Take the box off every amplifier first.")
final class PopCommand implements Callable<Integer> {
  @ParentCommand private RootCommand root;

  @Mixin private AnswerOptions answer;

  @Mixin private JigOptions jig;

  @Option(
      names = "--plan",
      required = true,
      paramLabel = "PLAN",
      description = "What it should be.")
  private Path plan;

  @Option(names = "--serial", paramLabel = "S", description = "The box's own number.")
  private Optional<String> serial = Optional.empty();

  @Mixin private PopWayOptions way;

  @Option(
      names = "--known-right",
      paramLabel = "DRIVER",
      description = "Prove the microphone's own sign on this driver, which is known to be right.")
  private Optional<String> knownRight = Optional.empty();

  @Option(
      names = "--driver",
      paramLabel = "DRIVER",
      description = "Watch this driver alone; may be repeated.")
  private List<String> only = List.of();

  @Option(
      names = "--answer",
      paramLabel = "DRIVER=MOTION",
      description = "What was seen: out, in or hardly; not asked for then. May be repeated.")
  private List<String> answers = List.of();

  @Option(
      names = "--out",
      paramLabel = "FILE",
      description = "Write what was found here, for judge and check (--pops FILE).")
  private Optional<Path> out = Optional.empty();

  @Option(names = "--overwrite", description = "Replace a file that is there already.")
  private boolean overwrite;

  @Override
  public Integer call() throws CommandFailure {
    try {
      PlannedBox box = PlannedBoxFile.read(plan);
      PopRequest request = request(box);
      PopTalk talk = new PopTalk(root.screen().err(), keyboard());
      PopOutcome run =
          way.is(PopWay.BATTERY) || request.needsNoJig()
              ? battery(request, talk)
              : onJig(request, talk);
      return show(box, run);
    } catch (BadFileException bad) {
      throw new CommandFailure(ExitCode.BAD_DATA, bad.getMessage(), bad);
    }
  }

  /** What is asked for. */
  private record PopRequest(
      PopPlan plan, List<String> drivers, Map<String, Motion> answers, boolean chosen) {
    /** Without a way chosen, answers to everything were seen elsewhere. */
    boolean needsNoJig() {
      return !chosen && answers.keySet().containsAll(drivers);
    }
  }

  private PopRequest request(PlannedBox box) throws CommandFailure {
    PopPlan pops = new PopPlan(box);
    List<String> all = List.copyOf(pops.expected().keySet());
    if (all.isEmpty()) {
      throw new CommandFailure(
          ExitCode.NOT_JUDGED,
          "No cone of this plan can be reached from outside, so that no pop test shows one.");
    }
    requireSerial();
    for (String driver : only) {
      requireReached("--driver", driver, all);
    }
    if (knownRight.isPresent()) {
      requireReached("--known-right", knownRight.get(), all);
    }
    Map<String, Motion> given = PopOptions.motions("--answer", box, answers);
    for (String driver : given.keySet()) {
      requireReached("--answer", driver, all);
    }
    requireTogether(given, all);
    return new PopRequest(pops, only.isEmpty() ? all : only, given, way.chosen().isPresent());
  }

  private void requireSerial() throws CommandFailure {
    int length = serial.map(text -> text.isBlank() ? 0 : text.length()).orElse(1);
    if (length < 1 || length > RunShelf.SERIAL_MAX) {
      throw new CommandFailure(
          ExitCode.USAGE,
          "--serial has " + length + " characters; it must have 1 to " + RunShelf.SERIAL_MAX + ".");
    }
  }

  /** What is for eyes does not go with a microphone. */
  private void requireTogether(Map<String, Motion> given, List<String> all) throws CommandFailure {
    boolean hears = way.is(PopWay.MICROPHONE);
    if (hears && !given.isEmpty()) {
      throw new CommandFailure(
          ExitCode.USAGE, "--answer is what eyes saw; leave it out with --microphone.");
    }
    if (hears && !only.isEmpty() && !only.containsAll(all)) {
      throw new CommandFailure(
          ExitCode.USAGE,
          "--driver cannot go with --microphone: a cone that no current moves is told beside the"
              + " others, so that all are heard. Leave --driver out.");
    }
  }

  private static void requireReached(String option, String driver, List<String> all)
      throws CommandFailure {
    if (!all.contains(driver)) {
      throw new CommandFailure(
          ExitCode.USAGE,
          option
              + " names driver \""
              + driver
              + "\"; the drivers that can be reached from outside are "
              + String.join(", ", all)
              + ".");
    }
  }

  private static PopOutcome battery(PopRequest request, PopTalk talk) throws CommandFailure {
    talk.cautions(PopWay.BATTERY);
    WatchingCones.Mover mover =
        driver -> talk.waitFor("Touch the cell to the terminals for less than a second, + to +.");
    return new PopOutcome(
        PopWay.BATTERY,
        new WatchingCones(request.plan(), talk, mover).run(request.drivers(), request.answers()),
        Optional.empty());
  }

  private PopOutcome onJig(PopRequest request, PopTalk talk) throws CommandFailure {
    JigChoice choice = jig.choice();
    try (ProgressLine progress = new ProgressLine(root.screen());
        StopRequest stop = StopRequest.listen();
        JigClient client = choice.connect(progress)) {
      Steps steps = new Steps(client, progress, stop);
      if (way.is(PopWay.JIG_STEP)) {
        return watched(request, talk, steps);
      }
      boolean mayHear = request.answers().isEmpty() && only.isEmpty();
      if (way.is(PopWay.MICROPHONE) || (mayHear && steps.microphoneIsThere())) {
        talk.cautions(PopWay.MICROPHONE);
        MicrophoneBench bench =
            choice instanceof JigChoice.Virtual virtual
                ? new VirtualMicrophone(virtual.world(), progress, stop)
                : new PersonMicrophone(request.plan(), talk, steps);
        HearingCones.Result result = new HearingCones(request.plan(), bench).run(knownRight);
        return new PopOutcome(PopWay.MICROPHONE, result.readings(), Optional.of(result.proof()));
      }
    }
    talk.say("No sound comes on the jig's third channel, so this is done with a dry cell.");
    return battery(request, talk);
  }

  private static PopOutcome watched(PopRequest request, PopTalk talk, Steps steps)
      throws CommandFailure {
    talk.cautions(PopWay.JIG_STEP);
    talk.say(
        "The step moves most cones by 0.05 to 0.4 mm only, one driver more than several: look"
            + " closely along the cone, or use --microphone or --battery.");
    WatchingCones.Mover mover =
        driver -> {
          talk.waitFor("The jig drives one step of 0.3 s.");
          steps.once();
        };
    return new PopOutcome(
        PopWay.JIG_STEP,
        new WatchingCones(request.plan(), talk, mover).run(request.drivers(), request.answers()),
        Optional.empty());
  }

  private static Supplier<Optional<String>> keyboard() {
    BufferedReader reader =
        new BufferedReader(new InputStreamReader(System.in, Charset.defaultCharset()));
    return () -> {
      try {
        return Optional.ofNullable(reader.readLine());
      } catch (IOException e) {
        throw new UncheckedIOException("the keyboard could not be read", e);
      }
    };
  }

  private int show(PlannedBox box, PopOutcome run) throws CommandFailure {
    String now =
        DateTimeFormatter.ISO_OFFSET_DATE_TIME.format(
            ZonedDateTime.now(ZoneId.systemDefault()).truncatedTo(ChronoUnit.SECONDS));
    PopRecord record =
        new PopRecord(box.name(), serial, now, run.way(), run.isProven(), run.readings());
    if (out.isPresent()) {
      try {
        PopFile.write(out.get(), record, overwrite ? Existing.REPLACE : Existing.REFUSE);
      } catch (BadFileException bad) {
        throw new CommandFailure(ExitCode.CANNOT_WRITE, bad.getMessage(), bad);
      }
    }
    ExitCode code = run.exitCode();
    if (answer.json) {
      ObjectNode node = JsonAnswer.of("pop", code).put("way", run.way().word());
      run.proof().ifPresent(proof -> node.put("microphone", proof.sentence()));
      PopFile.drivers(node.putArray("drivers"), record);
      out.ifPresent(file -> node.put("file", file.toString()));
      root.screen().out().println(node);
    } else {
      run.sentences().forEach(root.screen().out()::println);
      out.ifPresent(
          file ->
              root.screen().out().println("Written; give it to judge or check: --pops " + file));
    }
    return code.number();
  }
}
