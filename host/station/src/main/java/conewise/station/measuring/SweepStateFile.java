package conewise.station.measuring;

import com.fasterxml.jackson.core.JsonProcessingException;
import com.fasterxml.jackson.databind.DeserializationFeature;
import com.fasterxml.jackson.databind.JsonNode;
import com.fasterxml.jackson.databind.json.JsonMapper;
import com.fasterxml.jackson.databind.node.ObjectNode;
import conewise.jig.sweep.SweepState;
import conewise.station.files.BadFileException;
import java.io.IOException;
import java.nio.charset.StandardCharsets;
import java.nio.file.Files;
import java.nio.file.Path;
import java.nio.file.StandardCopyOption;

/**
 * An interrupted sweep in a file (JSON, schema {@code conewise/sweep-1}): what was read of each
 * tone, what the bench looked like, and which jig it was. The raw records of the tones are not in
 * it.
 */
public final class SweepStateFile {
  private static final long LARGEST_BYTES = 64L << 20;
  private static final JsonMapper MAPPER =
      JsonMapper.builder().enable(DeserializationFeature.FAIL_ON_TRAILING_TOKENS).build();

  private SweepStateFile() {}

  /**
   * Writes a state; one that is there already is replaced in one step.
   *
   * @throws IOException when it cannot be written
   */
  public static void write(Path file, SweepState state) throws IOException {
    ObjectNode node = SweepStateNodes.of(state);
    Path part = file.resolveSibling(file.getFileName() + ".part");
    Files.write(part, node.toString().getBytes(StandardCharsets.UTF_8));
    Files.move(part, file, StandardCopyOption.REPLACE_EXISTING);
  }

  /**
   * Reads a state.
   *
   * @throws BadFileException when it is not there or not such a state
   */
  public static SweepState read(Path file) throws BadFileException {
    try {
      if (Files.size(file) > LARGEST_BYTES) {
        throw new BadFileException(
            file
                + " has "
                + Files.size(file)
                + " bytes; an interrupted sweep has at most "
                + LARGEST_BYTES
                + ".");
      }
      JsonNode node = MAPPER.readTree(Files.readAllBytes(file));
      if (node == null) {
        throw new IllegalArgumentException("it is empty");
      }
      return SweepStateNodes.state(node);
    } catch (JsonProcessingException | IllegalArgumentException bad) {
      throw new BadFileException(
          file
              + " is no interrupted sweep that can be resumed ("
              + firstLine(bad)
              + "); start the sweep over.");
    } catch (IOException e) {
      throw new BadFileException(
          file + " cannot be read (" + e.getClass().getSimpleName() + "); check its name.");
    }
  }

  private static String firstLine(Exception problem) {
    return String.valueOf(problem.getMessage()).lines().findFirst().orElse("no reason given");
  }
}
