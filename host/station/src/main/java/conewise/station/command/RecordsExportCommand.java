package conewise.station.command;

import com.fasterxml.jackson.databind.node.ArrayNode;
import com.fasterxml.jackson.databind.node.ObjectNode;
import conewise.analysis.judgement.Check;
import conewise.analysis.outcome.Outcome;
import conewise.station.answer.CommandFailure;
import conewise.station.answer.ExitCode;
import conewise.station.answer.JsonAnswer;
import conewise.station.answer.ProgressLine;
import conewise.station.card.VerdictSign;
import conewise.station.files.BadFileException;
import conewise.station.files.Existing;
import conewise.station.files.ImpedanceTable;
import conewise.station.files.NewFile;
import conewise.station.files.TouchstoneFile;
import conewise.station.judging.KeptJudging;
import conewise.station.records.KeptRun;
import conewise.station.records.RecordsException;
import conewise.station.records.RunFilter;
import conewise.station.records.RunLine;
import conewise.station.records.store.RecordStore;
import java.nio.file.Path;
import java.util.List;
import java.util.Locale;
import java.util.Optional;
import java.util.concurrent.Callable;
import picocli.CommandLine.Command;
import picocli.CommandLine.Mixin;
import picocli.CommandLine.Option;
import picocli.CommandLine.ParentCommand;

/** {@code records export}. */
@Command(
    name = "export",
    mixinStandardHelpOptions = true,
    description = {
      "Writes kept runs into a file, by its ending: .csv a line for each check of each run,",
      ".json all but the raw captures. With --run the curve alone: .csv or .s1p."
    })
final class RecordsExportCommand implements Callable<Integer> {
  private static final String HEAD =
      "run,finished,job,limits_version,serial,attempt,decision,operator,station,check,"
          + "check_decision,value,low,high,unit,limit_low,limit_high\n";

  @ParentCommand private RecordsCommand records;

  @Mixin private AnswerOptions answer;

  @Mixin private RecordsOptions place;

  @Mixin private RunFilterOptions filter;

  @Option(names = "--run", paramLabel = "RUN", description = "The curve of this run alone.")
  private Optional<Long> run = Optional.empty();

  @Option(
      names = "--out",
      required = true,
      paramLabel = "FILE",
      description = "Where to; nothing that is there is replaced.")
  private Path out;

  @Override
  public Integer call() throws CommandFailure {
    String name = out.toString().toLowerCase(Locale.ROOT);
    requireEnding(name);
    int count;
    try (RecordStore store = place.open();
        ProgressLine progress = new ProgressLine(records.screen())) {
      count = run.isPresent() ? curve(store, name) : runs(store, name, progress);
    } catch (RecordsException trouble) {
      throw RecordsOptions.failure(trouble);
    } catch (BadFileException bad) {
      throw new CommandFailure(ExitCode.CANNOT_WRITE, bad.getMessage(), bad);
    }
    if (answer.json) {
      ObjectNode json = JsonAnswer.of("records export", ExitCode.PASS);
      records.screen().out().println(json.put("runs", count).put("file", out.toString()));
    } else {
      records
          .screen()
          .out()
          .println(count + (count == 1 ? " run" : " runs") + " written to " + out);
    }
    return ExitCode.PASS.number();
  }

  private void requireEnding(String name) throws CommandFailure {
    List<String> allowed = run.isPresent() ? List.of(".csv", ".s1p") : List.of(".csv", ".json");
    if (allowed.stream().noneMatch(name::endsWith)) {
      throw new CommandFailure(
          ExitCode.USAGE,
          "--out is \""
              + out
              + "\"; it must end in "
              + String.join(" or ", allowed)
              + (run.isPresent() ? "." : " (.s1p holds one curve: add --run RUN)."));
    }
  }

  private int curve(RecordStore store, String name)
      throws CommandFailure, RecordsException, BadFileException {
    var curve = KeptRuns.curve(KeptRuns.run(store, run.orElseThrow()));
    if (name.endsWith(".s1p")) {
      TouchstoneFile.writeImpedance(out, curve, Existing.REFUSE);
    } else {
      ImpedanceTable.write(out, curve, Existing.REFUSE);
    }
    return 1;
  }

  private int runs(RecordStore store, String name, ProgressLine progress)
      throws CommandFailure, RecordsException, BadFileException {
    List<RunLine> lines = store.list(filter.filter(RunFilter.MOST));
    boolean csv = name.endsWith(".csv");
    StringBuilder text = new StringBuilder(csv ? HEAD : "");
    ObjectNode json = JsonAnswer.of("records export", ExitCode.PASS);
    ArrayNode list = json.putArray("runs");
    for (int i = 0; i < lines.size(); i++) {
      progress.show(i / (double) lines.size(), "reading run " + lines.get(i).id());
      KeptRun kept = KeptRuns.run(store, lines.get(i).id());
      if (csv) {
        appendRows(text, kept);
      } else {
        KeptRunJson.write(list.addObject(), kept, KeptJudging.card(kept));
      }
    }
    NewFile.writeText(out, Existing.REFUSE, csv ? text : json.toPrettyString() + "\n");
    return lines.size();
  }

  private static void appendRows(StringBuilder text, KeptRun kept) {
    String lead =
        String.join(
            ",",
            Long.toString(kept.id()),
            kept.run().finished().toString(),
            cell(kept.run().job()),
            Integer.toString(kept.limitsVersion()),
            cell(kept.run().serial()),
            Integer.toString(kept.attempt()),
            VerdictSign.of(kept.run().verdict().decision()).machineWord(),
            cell(kept.run().operator().orElse("")),
            cell(kept.run().station()));
    if (kept.run().verdict().checks().isEmpty()) {
      text.append(lead).append(",".repeat(8)).append('\n');
    }
    for (Check check : kept.run().verdict().checks()) {
      text.append(lead).append(',').append(cell(check.id())).append(',');
      text.append(VerdictSign.of(check.decision()).machineWord());
      if (check.reading() instanceof Outcome.Found<Check.Reading> found) {
        Check.Reading reading = found.value();
        text.append(',').append(reading.value()).append(',').append(end(reading.interval().low()));
        text.append(',').append(end(reading.interval().high())).append(',').append(reading.unit());
      } else {
        text.append(",,,,");
      }
      text.append(',').append(check.limits().map(each -> end(each.low())).orElse(""));
      text.append(',').append(check.limits().map(each -> end(each.high())).orElse(""));
      text.append('\n');
    }
  }

  /** An end without a limit is an empty cell. */
  private static String end(double value) {
    return Double.isInfinite(value) ? "" : Double.toString(value);
  }

  /** RFC 4180; what a table program would take for a formula is given a leading apostrophe. */
  private static String cell(String text) {
    String tame = text.matches("[=+\\-@].*") ? "'" + text : text;
    return tame.matches(".*[\",\n].*") ? '"' + tame.replace("\"", "\"\"") + '"' : tame;
  }
}
