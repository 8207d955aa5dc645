package conewise.simulator.world;

import com.fasterxml.jackson.core.JsonLocation;
import com.fasterxml.jackson.core.JsonParser;
import com.fasterxml.jackson.core.JsonProcessingException;
import com.fasterxml.jackson.core.JsonToken;
import com.fasterxml.jackson.databind.DeserializationFeature;
import com.fasterxml.jackson.databind.JsonMappingException;
import com.fasterxml.jackson.databind.MapperFeature;
import com.fasterxml.jackson.databind.ObjectMapper;
import com.fasterxml.jackson.databind.exc.InvalidFormatException;
import com.fasterxml.jackson.databind.exc.MismatchedInputException;
import com.fasterxml.jackson.databind.exc.UnrecognizedPropertyException;
import com.fasterxml.jackson.databind.exc.ValueInstantiationException;
import com.fasterxml.jackson.databind.introspect.AnnotatedMember;
import com.fasterxml.jackson.databind.introspect.JacksonAnnotationIntrospector;
import com.fasterxml.jackson.dataformat.yaml.YAMLMapper;
import com.fasterxml.jackson.dataformat.yaml.YAMLParser;
import java.io.IOException;
import java.io.UncheckedIOException;
import java.nio.charset.StandardCharsets;
import java.nio.file.Files;
import java.nio.file.Path;
import java.util.Collection;
import java.util.List;
import java.util.Locale;
import java.util.TreeSet;
import java.util.stream.Collectors;

/**
 * Reads worlds from YAML (or JSON, which is YAML as well). The format is described in {@code
 * firmware-sim/simulator/WORLDS.md}; keys carry their units and an unknown key is refused.
 */
public final class WorldFile {
  private static final int LARGEST_BYTES = 1 << 20;

  /** Finds unknown keys and wrong values; what is missing is left to the second reading. */
  private static final ObjectMapper FIRST = mapper(false);

  private static final ObjectMapper SECOND = mapper(true);

  private WorldFile() {}

  private static ObjectMapper mapper(boolean missingIsWrong) {
    return YAMLMapper.builder()
        .propertyNamingStrategy(new KeyNames())
        .disable(MapperFeature.ALLOW_COERCION_OF_SCALARS)
        .enable(DeserializationFeature.FAIL_ON_TRAILING_TOKENS)
        .enable(JsonParser.Feature.STRICT_DUPLICATE_DETECTION)
        .annotationIntrospector(
            new JacksonAnnotationIntrospector() {
              private static final long serialVersionUID = 1;

              @Override
              public Boolean hasRequiredMarker(AnnotatedMember member) {
                return missingIsWrong && Boolean.TRUE.equals(super.hasRequiredMarker(member));
              }
            })
        .build();
  }

  /**
   * Reads a world from a file.
   *
   * @throws WorldFileException if there is no such file or it is no world
   */
  public static World read(Path file) {
    try {
      if (Files.size(file) > LARGEST_BYTES) {
        throw new WorldFileException(
            file + " has " + Files.size(file) + " bytes; a world file has at most 1048576.", null);
      }
      return read(file.toString(), Files.readString(file, StandardCharsets.UTF_8));
    } catch (IOException problem) {
      throw new WorldFileException(
          "The world file " + file + " cannot be read as text (" + plain(problem) + ").", problem);
    }
  }

  /**
   * Reads a world from text.
   *
   * @throws WorldFileException if it is no world
   */
  public static World read(String text) {
    return read("world", text);
  }

  static World read(String where, String text) {
    try {
      refuseEmptyValues(where, text);
      FIRST.readValue(text, WorldText.class);
      return WorldAssembly.of(SECOND.readValue(text, WorldText.class));
    } catch (JsonProcessingException problem) {
      throw new WorldFileException(
          where + place(problem, text) + ": " + sentence(problem), problem);
    } catch (IllegalArgumentException problem) {
      throw new WorldFileException(where + ": " + problem.getMessage(), problem);
    }
  }

  private static void refuseEmptyValues(String where, String text) throws JsonProcessingException {
    int tokens = 0;
    try (JsonParser parser = FIRST.createParser(text)) {
      for (JsonToken token = parser.nextToken(); token != null; token = parser.nextToken()) {
        tokens++;
        refuseReference(where, text, parser);
        if (token == JsonToken.VALUE_NULL) {
          throw new WorldFileException(
              where
                  + place(parser.currentLocation(), parser.currentName(), text)
                  + ": "
                  + (parser.currentName() == null ? "A list entry" : parser.currentName())
                  + " has no value; give one or leave it out.",
              null);
        }
      }
    } catch (JsonProcessingException problem) {
      throw problem;
    } catch (IOException problem) {
      throw new UncheckedIOException(problem);
    }
    if (tokens == 0) {
      throw new WorldFileException(
          where + " is empty; it needs name, about, seed and wiring.", null);
    }
  }

  /** A value that stands elsewhere would have to be looked up by whoever reads the file. */
  private static void refuseReference(String where, String text, JsonParser parser)
      throws IOException {
    if (parser instanceof YAMLParser yaml
        && (yaml.isCurrentAlias() || yaml.getObjectId() != null || yaml.getTypeId() != null)) {
      throw new WorldFileException(
          where
              + place(parser.currentLocation(), null, text)
              + ": an anchor (&), alias (*) or tag (!) stands here; write the value itself.",
          null);
    }
  }

  private static String place(JsonProcessingException problem, String text) {
    String key = null;
    if (problem instanceof JsonMappingException mapping && !mapping.getPath().isEmpty()) {
      key = mapping.getPath().get(mapping.getPath().size() - 1).getFieldName();
    }
    return place(problem.getLocation(), key, text);
  }

  /** The reader has often gone past the key that is wrong: the nearest line above that holds it. */
  private static String place(JsonLocation location, String key, String text) {
    if (location == null || location.getLineNr() < 1) {
      return "";
    }
    List<String> lines = text.lines().toList();
    int reported = Math.min(location.getLineNr(), lines.size());
    for (int line = reported; key != null && line >= 1; line--) {
      if (lines.get(line - 1).contains(key)) {
        return ", line " + line;
      }
    }
    return ", line " + reported;
  }

  private static String sentence(JsonProcessingException problem) {
    if (problem instanceof UnrecognizedPropertyException unknown) {
      return "\""
          + unknown.getPropertyName()
          + "\" is not a key of a "
          + thing(unknown.getReferringClass())
          + "; the keys are "
          + sorted(unknown.getKnownPropertyIds())
          + ".";
    } else if (problem instanceof InvalidFormatException wrong) {
      return path(wrong)
          + " is \""
          + wrong.getValue()
          + "\"; it must be "
          + wanted(wrong.getTargetType())
          + ".";
    } else if (problem instanceof ValueInstantiationException refused
        && refused.getCause() instanceof IllegalArgumentException cause) {
      return cause.getMessage();
    } else if (problem instanceof JsonMappingException missing
        && missing.getOriginalMessage().startsWith("Missing required")) {
      return path(missing) + " is missing; it must be given.";
    } else if (problem instanceof MismatchedInputException wrong
        && wrong.getOriginalMessage().startsWith("Cannot ")
        && wrong.getTargetType() != null
        && !isSingle(wrong.getTargetType())) {
      return path(wrong)
          + " is not of the right form; it must be "
          + form(wrong.getTargetType())
          + ".";
    } else if (problem instanceof JsonMappingException mapping) {
      return path(mapping) + ": " + firstLine(mapping.getOriginalMessage()) + ".";
    }
    return "This is not YAML (" + firstLine(problem.getOriginalMessage()) + ").";
  }

  private static boolean isSingle(Class<?> type) {
    return Number.class.isAssignableFrom(type) || type.isPrimitive() || type == String.class;
  }

  private static String form(Class<?> type) {
    return Collection.class.isAssignableFrom(type) ? "a list" : "a group of keys and values";
  }

  private static String wanted(Class<?> type) {
    if (type.isEnum()) {
      return "one of " + java.util.Arrays.toString(type.getEnumConstants());
    }
    return Number.class.isAssignableFrom(type) || type.isPrimitive() ? "a number" : "text";
  }

  private static String path(JsonMappingException problem) {
    String path =
        problem.getPath().stream()
            .map(
                each ->
                    each.getFieldName() == null
                        ? "number " + (each.getIndex() + 1)
                        : each.getFieldName())
            .collect(Collectors.joining(", "));
    return path.isEmpty() ? "The file" : path;
  }

  private static String firstLine(String message) {
    String line = message == null ? "no reason given" : message.lines().findFirst().orElse("");
    return line.replaceAll("`?(?:conewise|com|java)\\.[\\w.$]+`?", "this part");
  }

  private static String thing(Class<?> type) {
    String words =
        type.getSimpleName().replaceAll("Text$", "").replaceAll("([a-z])([A-Z])", "$1 $2");
    return words.toLowerCase(Locale.ROOT);
  }

  private static String sorted(Collection<Object> keys) {
    return new TreeSet<>(keys.stream().map(Object::toString).toList())
        .stream().collect(Collectors.joining(", "));
  }

  private static String plain(IOException problem) {
    return problem instanceof java.nio.file.NoSuchFileException
        ? "there is no such file"
        : problem.getClass().getSimpleName();
  }
}
