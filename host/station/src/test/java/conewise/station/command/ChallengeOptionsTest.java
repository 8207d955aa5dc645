package conewise.station.command;

import static org.junit.jupiter.api.Assertions.assertEquals;
import static org.junit.jupiter.api.Assertions.assertTrue;

import conewise.station.card.SampleCards;
import conewise.station.fixture.Artefact;
import conewise.station.fixture.Challenge;
import conewise.station.fixture.FixtureJig;
import conewise.station.fixture.ShiftChallenge;
import conewise.station.records.SampleRuns;
import conewise.station.records.store.RecordPlace;
import conewise.station.records.store.RecordStore;
import java.nio.file.Path;
import java.time.Duration;
import java.time.Instant;
import java.util.Optional;
import org.junit.jupiter.api.Test;
import org.junit.jupiter.api.io.TempDir;
import picocli.CommandLine;

/** What a station that is started again knows of its shift's challenge. */
class ChallengeOptionsTest {
  private static final Artefact GOOD =
      new Artefact("GOLDEN-1", Path.of("heron"), true, Optional.empty());
  private static final Artefact BAD =
      new Artefact("RED-1", Path.of("heron"), false, Optional.empty());
  private static final Instant NOW = SampleRuns.MORNING.plus(Duration.ofHours(2));

  /** The jig of the sample runs. */
  private static final FixtureJig SAME =
      new FixtureJig(Optional.of("CW-0007"), 1, Optional.of("CAL-1"));

  @TempDir Path folder;

  private String open(String bench, FixtureJig jig) throws Exception {
    try (RecordStore store =
        RecordStore.open(new RecordPlace.OfFile(folder.resolve("records.db")))) {
      ChallengeOptions options =
          CommandLine.populateCommand(new ChallengeOptions(), "--challenge-hours=12");
      ShiftChallenge challenge = new ShiftChallenge(new Challenge(GOOD, BAD), ShiftChallenge.USUAL);
      return options
          .known(Optional.of(challenge), store, bench, NOW)
          .orElseThrow()
          .open(NOW, Optional.of(jig))
          .orElse("met");
    }
  }

  private void keep(boolean goodPassed) throws Exception {
    try (RecordStore store =
        RecordStore.open(new RecordPlace.OfFile(folder.resolve("records.db")))) {
      store.append(
          SampleRuns.run(
              goodPassed ? SampleCards.passed() : SampleCards.failed(),
              Artefact.JOB,
              "GOLDEN-1",
              SampleRuns.PLAN,
              SampleRuns.MORNING));
      store.append(
          SampleRuns.run(
              SampleCards.failed(),
              Artefact.JOB,
              "RED-1",
              SampleRuns.PLAN,
              SampleRuns.MORNING.plusSeconds(60)));
    }
  }

  @Test
  void aRestartAsksNothingAnewOfTheSameJigAndCalibration() throws Exception {
    keep(true);
    assertEquals("met", open("bench 1", SAME));
    assertTrue(open("bench 2", SAME).contains("measure GOLDEN-1"));
  }

  @Test
  void afterARestartWithAnotherJigTheChallengeIsOpen() throws Exception {
    keep(true);
    String open = open("bench 1", new FixtureJig(Optional.of("CW-0008"), 1, Optional.of("CAL-1")));
    assertTrue(open.contains("read by jig CW-0007, and this is jig CW-0008"), open);
    open = open("bench 1", new FixtureJig(Optional.of("CW-0007"), 1, Optional.of("CAL-2")));
    assertTrue(open.contains("by calibration CAL-1"), open);
  }

  @Test
  void theLatestReadingOfAnArtefactCounts() throws Exception {
    keep(true);
    keep(false);
    assertTrue(open("bench 1", SAME).contains("GOLDEN-1, which must pass, came out as fail"));
  }
}
