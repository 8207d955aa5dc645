package conewise.station.desk;

import java.net.URLEncoder;
import java.nio.charset.StandardCharsets;
import java.util.List;
import java.util.Map;
import java.util.Optional;
import java.util.stream.Collectors;

/**
 * What stands in an address or a form, by the names of its fields. Blank is as good as nothing.
 *
 * @param fields all values of each, as they were sent
 */
record Asked(Map<String, List<String>> fields) {
  Asked {
    fields = Map.copyOf(fields);
  }

  /** All that is written in a field, without blanks around it. */
  List<String> all(String name) {
    return fields.getOrDefault(name, List.of()).stream()
        .map(String::strip)
        .filter(text -> !text.isEmpty())
        .toList();
  }

  /** The first that is written in a field. */
  Optional<String> one(String name) {
    return all(name).stream().findFirst();
  }

  /** The same for showing it again. */
  String shown(String name) {
    return one(name).orElse("");
  }

  /** An address with some of the fields. */
  String address(String path, List<String> names) {
    String query =
        names.stream()
            .flatMap(name -> all(name).stream().map(text -> name + "=" + coded(text)))
            .collect(Collectors.joining("&"));
    return query.isEmpty() ? path : path + "?" + query;
  }

  static String coded(String text) {
    return URLEncoder.encode(text, StandardCharsets.UTF_8);
  }
}
