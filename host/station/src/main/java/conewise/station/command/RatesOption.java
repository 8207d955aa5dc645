package conewise.station.command;

import conewise.analysis.diagnosis.Rates;
import conewise.station.answer.CommandFailure;
import conewise.station.answer.ExitCode;
import conewise.station.card.JobCard;
import conewise.station.files.BadFileException;
import conewise.station.rates.RatesFile;
import java.nio.file.Path;
import java.util.List;
import java.util.Locale;
import java.util.Optional;
import java.util.stream.Collectors;
import picocli.CommandLine.Option;

/** How often a shop meets each fault. */
final class RatesOption {
  @Option(
      names = "--rates",
      paramLabel = "FILE",
      description = "How often each fault is met (docs/file-formats.md); usual rates otherwise.")
  private Optional<Path> file = Optional.empty();

  /** The shop's own, or the usual ones. */
  Rates read() throws CommandFailure {
    if (file.isEmpty()) {
      return Rates.USUAL;
    }
    try {
      return RatesFile.read(file.get());
    } catch (BadFileException bad) {
      throw new CommandFailure(ExitCode.BAD_DATA, bad.getMessage(), bad);
    }
  }

  /** For the card: the file and what in it differs, so that the verdict can be had again. */
  List<JobCard.Fact> facts(Rates rates) {
    return file.map(path -> List.of(new JobCard.Fact("Rates", path + ": " + words(rates))))
        .orElse(List.of());
  }

  private static String words(Rates rates) {
    return rates.byKind().isEmpty()
        ? "the usual ones"
        : rates.byKind().entrySet().stream()
            .sorted(java.util.Map.Entry.comparingByKey())
            .map(each -> String.format(Locale.ROOT, "%s %.4g", each.getKey().id(), each.getValue()))
            .collect(Collectors.joining(", "));
  }
}
