package conewise.station.prediction;

import conewise.analysis.diagnosis.Fault;
import conewise.analysis.diagnosis.FaultKind;
import java.util.ArrayList;
import java.util.LinkedHashMap;
import java.util.List;
import java.util.Map;
import java.util.stream.Collectors;

/** Several faults in as few words as may be. */
public final class FaultWords {
  private FaultWords() {}

  /** Those of one kind share what their sentences share; without a full stop. */
  static String of(List<Fault> faults) {
    Map<FaultKind, List<String>> byKind = new LinkedHashMap<>();
    for (Fault fault : faults) {
      byKind.computeIfAbsent(fault.kind(), key -> new ArrayList<>()).add(fault.sentence());
    }
    return byKind.values().stream().map(FaultWords::shared).collect(Collectors.joining("; or "));
  }

  /** "driver left is loose", "driver right is loose": "driver left or right is loose". */
  public static String shared(List<String> sentences) {
    List<List<String>> all = sentences.stream().map(each -> List.of(each.split(" ", -1))).toList();
    int shortest = all.stream().mapToInt(List::size).min().orElseThrow();
    int head = 0;
    while (head < shortest - 1 && sameAt(all, head, true)) {
      head++;
    }
    int tail = 0;
    while (tail < shortest - 1 - head && sameAt(all, tail, false)) {
      tail++;
    }
    if (head + tail == 0) {
      return String.join("; or ", sentences);
    }
    List<String> first = all.get(0);
    List<String> parts = new ArrayList<>();
    for (List<String> words : all) {
      parts.add(String.join(" ", words.subList(head, words.size() - tail)));
    }
    List<String> phrase = new ArrayList<>(first.subList(0, head));
    phrase.add(either(parts));
    phrase.addAll(first.subList(first.size() - tail, first.size()));
    return String.join(" ", phrase);
  }

  private static boolean sameAt(List<List<String>> all, int place, boolean fromStart) {
    return all.stream()
            .map(words -> words.get(fromStart ? place : words.size() - 1 - place))
            .distinct()
            .count()
        == 1;
  }

  private static String either(List<String> parts) {
    int last = parts.size() - 1;
    return last == 0
        ? parts.get(0)
        : String.join(", ", parts.subList(0, last)) + " or " + parts.get(last);
  }
}
