package conewise.station.pop;

import static org.junit.jupiter.api.Assertions.assertEquals;
import static org.junit.jupiter.api.Assertions.assertFalse;
import static org.junit.jupiter.api.Assertions.assertThrows;
import static org.junit.jupiter.api.Assertions.assertTrue;

import conewise.analysis.diagnosis.Motion;
import conewise.analysis.diagnosis.Observation;
import conewise.analysis.outcome.Outcome;
import conewise.analysis.plan.PlannedBox;
import conewise.analysis.polarity.FirstHalfCycle;
import conewise.station.files.BadFileException;
import conewise.station.files.Existing;
import conewise.station.planfile.PlannedBoxFile;
import java.io.InputStream;
import java.nio.charset.StandardCharsets;
import java.nio.file.Files;
import java.nio.file.Path;
import java.util.List;
import java.util.Map;
import java.util.Optional;
import java.util.SplittableRandom;
import org.junit.jupiter.api.BeforeEach;
import org.junit.jupiter.api.Test;
import org.junit.jupiter.api.io.TempDir;
import org.junit.jupiter.params.ParameterizedTest;
import org.junit.jupiter.params.provider.CsvSource;

class PopFileTest {
  private static final long SEED = Long.getLong("conewise.seed", System.nanoTime());

  @TempDir Path folder;
  private PlannedBox plan;
  private Path file;

  @BeforeEach
  void write() throws Exception {
    Path planned = folder.resolve("plover.yaml");
    try (InputStream in = PopFileTest.class.getResourceAsStream("/conewise/plans/plover.yaml")) {
      Files.copy(in, planned);
    }
    plan = PlannedBoxFile.read(planned);
    file = folder.resolve("pops.json");
    PopFile.write(
        file,
        new PopRecord(
            plan.name(),
            Optional.of("P-1"),
            "2026-11-25T21:00:00Z",
            PopWay.MICROPHONE,
            true,
            List.of(
                new PopReading(
                    "left",
                    Motion.OUT,
                    Outcome.found(Motion.OUT),
                    Optional.of(new FirstHalfCycle(0.5, 0.01, 8, 0.05))),
                new PopReading(
                    "right", Motion.OUT, Outcome.none("It was skipped."), Optional.empty()))),
        Existing.REFUSE);
  }

  @Test
  void whatIsWrittenReadsBackAndOnlyWhatIsKnownBecomesEvidence() throws Exception {
    PopRecord read = PopFile.read(file, plan);
    assertEquals(Optional.of("P-1"), read.serial());
    assertEquals(PopWay.MICROPHONE, read.way());
    assertEquals(
        List.of(new Observation.HeardPops(Map.of("left", Motion.OUT), true)), read.observations());
  }

  @Test
  void aMicrophoneOfWhichNothingIsSaidIsNotProven() throws Exception {
    Files.writeString(file, Files.readString(file).replace("\"microphone_proven\" : true,", ""));
    assertFalse(PopFile.read(file, plan).microphoneProven());
  }

  @ParameterizedTest
  @CsvSource({
    "conewise/pops-1, conewise/pops-2",
    "Plover, Heron",
    "microphone, ear",
    "\"left\", \"middle\"",
    "\"left\", \"right\"",
    "\"motion\" : \"out\", \"motion\" : \"up\"",
    "\"motion\" : \"out\", \"movement\" : \"out\"",
    "drivers, driver",
    "true, 1",
    "{, [",
    "\"P-1\", 7"
  })
  void whatDoesNotFitIsSaidInOneSentence(String from, String to) throws Exception {
    Files.writeString(file, Files.readString(file).replace(from, to));
    BadFileException bad =
        assertThrows(BadFileException.class, () -> PopFile.read(file, plan), from + " to " + to);
    assertTrue(bad.getMessage().startsWith(file.toString()), bad.getMessage());
    assertTrue(bad.getMessage().endsWith("."), bad.getMessage());
    assertEquals(1, bad.problems().size());
  }

  @Test
  void missingFileIsSaid() {
    assertThrows(BadFileException.class, () -> PopFile.read(folder.resolve("none.json"), plan));
  }

  @Test
  void mangledFilesAreReadOrRefusedAndNeverMore() throws Exception {
    SplittableRandom random = new SplittableRandom(SEED);
    byte[] sound = Files.readAllBytes(file);
    for (int k = 0; k < 400; k++) {
      byte[] mangled = sound.clone();
      for (int change = random.nextInt(1, 6); change > 0; change--) {
        mangled[random.nextInt(mangled.length)] = (byte) random.nextInt(256);
      }
      Files.write(file, mangled);
      try {
        PopFile.read(file, plan);
      } catch (BadFileException bad) {
        String which = "seed " + SEED + ", case " + k;
        assertTrue(bad.getMessage().endsWith("."), which + ": " + bad.getMessage());
        assertTrue(
            new String(bad.getMessage().getBytes(StandardCharsets.UTF_8), StandardCharsets.UTF_8)
                    .lines()
                    .count()
                == 1,
            which);
      }
    }
  }
}
