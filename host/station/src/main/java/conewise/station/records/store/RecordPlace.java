package conewise.station.records.store;

import java.nio.file.Path;

/** Where the records are. */
public sealed interface RecordPlace {
  /** The file that is used where none is named. */
  Path USUAL_FILE = Path.of("conewise-results", "records.db");

  /** For people, without any password. */
  String shown();

  /** One file of this machine. */
  record OfFile(Path file) implements RecordPlace {
    @Override
    public String shown() {
      return file.toString();
    }
  }

  /**
   * A PostgreSQL server.
   *
   * @param url {@code jdbc:postgresql://host:port/database}, with {@code ?user=...} and further
   *     settings of the driver where needed
   */
  record OfServer(String url) implements RecordPlace {
    @Override
    public String shown() {
      return url.split("\\?", 2)[0];
    }

    @Override
    public String toString() {
      return shown();
    }
  }

  /**
   * Reads what a person names: a URL that begins with {@code jdbc:postgresql:} or {@code
   * postgresql:} is a server, anything else a file.
   */
  static RecordPlace of(String named) {
    if (named.startsWith("jdbc:postgresql:")) {
      return new OfServer(named);
    }
    return named.startsWith("postgresql:")
        ? new OfServer("jdbc:" + named)
        : new OfFile(Path.of(named));
  }
}
