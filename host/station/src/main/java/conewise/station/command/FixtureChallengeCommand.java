package conewise.station.command;

import conewise.analysis.diagnosis.Rates;
import conewise.analysis.judgement.Decision;
import conewise.analysis.judgement.Verdict;
import conewise.analysis.plan.PlannedBox;
import conewise.jig.client.JigClient;
import conewise.jig.sweep.Interrupted;
import conewise.jig.sweep.SweepOutcome;
import conewise.jig.sweep.SweepResult;
import conewise.station.answer.CommandFailure;
import conewise.station.answer.ExitCode;
import conewise.station.answer.JsonAnswer;
import conewise.station.answer.ProgressLine;
import conewise.station.answer.Screen;
import conewise.station.calibrating.ShopRule;
import conewise.station.card.JobCard;
import conewise.station.files.BadFileException;
import conewise.station.fixture.Artefact;
import conewise.station.fixture.Challenge;
import conewise.station.judging.Judging;
import conewise.station.measuring.JigChoice;
import conewise.station.measuring.StopRequest;
import conewise.station.measuring.SweepFacts;
import conewise.station.measuring.SweepRun;
import conewise.station.planfile.PlannedBoxFile;
import conewise.station.records.BoxRun;
import conewise.station.records.JigUsed;
import conewise.station.records.PlanText;
import conewise.station.records.RecordsException;
import conewise.station.records.store.RecordPlace;
import conewise.station.records.store.RecordStore;
import java.io.IOException;
import java.nio.file.Path;
import java.time.Instant;
import java.time.ZoneId;
import java.time.ZonedDateTime;
import java.util.List;
import java.util.Optional;
import java.util.OptionalDouble;
import java.util.concurrent.Callable;
import picocli.CommandLine.Command;
import picocli.CommandLine.Mixin;
import picocli.CommandLine.Option;
import picocli.CommandLine.Parameters;
import picocli.CommandLine.ParentCommand;

/** {@code fixture challenge}: measures an artefact as the start of a shift does. */
@Command(
    name = "challenge",
    mixinStandardHelpOptions = true,
    description = {
      "Measures an artefact that is known to be good or bad, keeps the run as such, and says"
          + " whether it came out as it must.",
      "A station with the same challenge, records and --bench name takes it into account when it"
          + " starts."
    },
    footer = "Take the box off every amplifier before it meets the jig.")
final class FixtureChallengeCommand implements Callable<Integer> {
  @ParentCommand private FixtureCommand fixture;

  @Mixin private AnswerOptions answer;

  @Mixin private JigOptions jig;

  @Mixin private SweepOptions sweep;

  @Mixin private CalibrationOptions calibration;

  @Parameters(index = "0", paramLabel = "FILE", description = "The challenge.")
  private Path file;

  @Parameters(index = "1", paramLabel = "NAME", description = "The artefact on the clips.")
  private String name;

  @Option(
      names = "--records",
      paramLabel = "PLACE",
      defaultValue = "${env:" + RecordsOptions.VARIABLE + ":-conewise-results/records.db}",
      description = "File of the records, or jdbc:postgresql://... (default ${DEFAULT-VALUE}).")
  private String records;

  @Option(
      names = "--bench",
      paramLabel = "NAME",
      defaultValue = "bench",
      description = "This bench's name in the records (default: ${DEFAULT-VALUE}).")
  private String bench;

  @Option(names = "--operator", paramLabel = "NAME", description = "Who is at the bench.")
  private Optional<String> operator = Optional.empty();

  @Override
  public Integer call() throws CommandFailure {
    Challenge challenge = ChallengeOptions.read(file);
    Artefact artefact =
        challenge
            .named(name)
            .orElseThrow(
                () ->
                    new CommandFailure(
                        ExitCode.USAGE,
                        "The challenge has no artefact "
                            + name
                            + "; it has "
                            + challenge.good().name()
                            + " and "
                            + challenge.bad().name()
                            + "."));
    CalibrationOptions.Asked asked = calibration.read();
    JigChoice choice = jig.choice();
    JobCard card;
    try (RecordStore store = RecordStore.open(RecordPlace.of(records))) {
      card = measured(artefact, asked, choice, store);
    } catch (RecordsException trouble) {
      throw RecordsOptions.failure(trouble);
    }
    return show(artefact, card.verdict());
  }

  private JobCard measured(
      Artefact artefact, CalibrationOptions.Asked asked, JigChoice choice, RecordStore store)
      throws CommandFailure, RecordsException {
    Instant started = Instant.now();
    PlannedBox plan;
    PlanText text;
    try {
      plan = PlannedBoxFile.read(artefact.plan());
      text = PlanText.of(artefact.plan().toString(), PlannedBoxFile.bytes(artefact.plan()));
    } catch (BadFileException | IOException bad) {
      throw new CommandFailure(ExitCode.BAD_DATA, bad.getMessage(), bad);
    }
    try (ProgressLine progress = new ProgressLine(fixture.screen());
        StopRequest stop = StopRequest.listen();
        JigClient client = choice.connect(progress)) {
      ZonedDateTime now = ZonedDateTime.now(ZoneId.systemDefault());
      CalibrationOptions.Chosen chosen = asked.on(client.identity(), ShopRule.none(), now);
      SweepOutcome outcome =
          new SweepRun(sweep.kind(), chosen.settings(), Optional.empty())
              .run(client, progress, stop);
      if (outcome instanceof Interrupted broken) {
        throw new CommandFailure(ExitCode.NOT_JUDGED, broken.because() + " " + broken.nextStep());
      }
      SweepResult result = (SweepResult) outcome;
      String version = RootCommand.Version.text();
      JobCard card =
          new Judging(Rates.USUAL)
              .card(
                  plan,
                  result.measurement(),
                  Optional.of(artefact.name()),
                  SweepFacts.of(result, client.linkName(), chosen.words(), now, version));
      JigUsed used =
          new JigUsed(
              client.identity().jig().serial(),
              client.identity().jig().board(),
              client.identity().jig().firmware(),
              chosen.stored().map(each -> each.calibration().id()),
              OptionalDouble.empty());
      store.append(
          BoxRun.of(
              card,
              Artefact.JOB,
              text,
              new BoxRun.Bench(operator, bench, used, started, Instant.now(), version),
              result.captures(),
              List.of()));
      progress.wipe();
      return card;
    }
  }

  private int show(Artefact artefact, Verdict verdict) {
    boolean right = artefact.asItMust(verdict.decision(), verdict.headline());
    ExitCode code =
        right
            ? ExitCode.PASS
            : verdict.decision() == Decision.NOT_JUDGED ? ExitCode.NOT_JUDGED : ExitCode.FAIL;
    String sentence =
        artefact.name()
            + (right
                ? " came out as it must."
                : " did not come out as it must: clean the clips, calibrate, measure it again.");
    Screen screen = fixture.screen();
    if (answer.json) {
      screen
          .out()
          .println(
              JsonAnswer.of("fixture challenge", code)
                  .put("artefact", artefact.name())
                  .put("as_it_must", right)
                  .put("headline", verdict.headline())
                  .put("sentence", sentence));
    } else {
      screen.out().println(sentence);
      screen.out().println(verdict.headline());
    }
    return code.number();
  }
}
