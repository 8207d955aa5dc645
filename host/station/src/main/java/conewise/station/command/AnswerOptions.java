package conewise.station.command;

import picocli.CommandLine.Option;

/** How a command answers. */
final class AnswerOptions {
  @Option(
      names = "--json",
      description = "Answer with one JSON object (docs/schemas/answer-1.json).")
  boolean json;
}
