package conewise.station.planfile;

import com.fasterxml.jackson.databind.JsonNode;
import com.fasterxml.jackson.databind.ObjectMapper;
import com.fasterxml.jackson.databind.node.ArrayNode;
import com.fasterxml.jackson.databind.node.ObjectNode;
import java.io.IOException;
import java.util.ArrayList;
import java.util.List;

/** Plans that differ from a good one in one place. */
final class ChangedPlans {
  private static final ObjectMapper MAPPER = new ObjectMapper();

  private ChangedPlans() {}

  /** Copies of a plan, each changed in one place. */
  static List<JsonNode> of(JsonNode plan, List<String> exchanges) throws IOException {
    List<JsonNode> all = new ArrayList<>();
    for (String pointer : pointers("", plan)) {
      for (String exchange : exchanges) {
        all.add(with(plan, pointer, MAPPER.readTree(exchange.replace('\'', '"'))));
      }
      all.add(without(plan, pointer));
      JsonNode extended = plan.deepCopy();
      if (extended.at(pointer) instanceof ObjectNode object) {
        all.add(extended);
        object.put("resonance_mhz", 1);
      }
    }
    return all;
  }

  private static List<String> pointers(String start, JsonNode node) {
    List<String> all = new ArrayList<>();
    if (node.isObject()) {
      node.properties()
          .forEach(
              entry -> {
                all.add(start + "/" + entry.getKey());
                all.addAll(pointers(start + "/" + entry.getKey(), entry.getValue()));
              });
    }
    for (int i = 0; node.isArray() && i < node.size(); i++) {
      all.add(start + "/" + i);
      all.addAll(pointers(start + "/" + i, node.get(i)));
    }
    return all;
  }

  private static JsonNode with(JsonNode plan, String pointer, JsonNode value) {
    JsonNode copy = plan.deepCopy();
    String last = pointer.substring(pointer.lastIndexOf('/') + 1);
    JsonNode parent = copy.at(pointer.substring(0, pointer.lastIndexOf('/')));
    if (parent instanceof ArrayNode array) {
      array.set(Integer.parseInt(last), value);
    } else {
      ((ObjectNode) parent).set(last, value);
    }
    return copy;
  }

  private static JsonNode without(JsonNode plan, String pointer) {
    JsonNode copy = plan.deepCopy();
    String last = pointer.substring(pointer.lastIndexOf('/') + 1);
    JsonNode parent = copy.at(pointer.substring(0, pointer.lastIndexOf('/')));
    if (parent instanceof ArrayNode array) {
      array.remove(Integer.parseInt(last));
    } else {
      ((ObjectNode) parent).remove(last);
    }
    return copy;
  }
}
