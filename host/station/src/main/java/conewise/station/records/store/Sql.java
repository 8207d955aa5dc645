package conewise.station.records.store;

import java.sql.Connection;
import java.sql.PreparedStatement;
import java.sql.ResultSet;
import java.sql.SQLException;
import java.sql.Types;
import java.time.Instant;
import java.util.ArrayList;
import java.util.List;
import java.util.Optional;
import java.util.OptionalDouble;

/** A statement with its values; what has no value is kept as SQL's null and comes back as empty. */
final class Sql implements AutoCloseable {
  /** Rows are fetched in such portions. */
  private static final int PORTION = 2000;

  /** Makes something of a row. */
  @FunctionalInterface
  interface Reader<T> {
    T read(Row row) throws SQLException;
  }

  private final PreparedStatement statement;

  Sql(Connection connection, String text) throws SQLException {
    statement = connection.prepareStatement(text);
    statement.setFetchSize(PORTION);
  }

  /** Sets all values, in order. */
  Sql with(Object... values) throws SQLException {
    for (int i = 0; i < values.length; i++) {
      set(i + 1, values[i]);
    }
    return this;
  }

  private void set(int place, Object value) throws SQLException {
    if (value instanceof Optional<?> maybe) {
      set(place, maybe.orElse(null));
    } else if (value instanceof OptionalDouble maybe) {
      set(place, maybe.isPresent() ? maybe.getAsDouble() : new None(Types.DOUBLE));
    } else if (value instanceof None none) {
      statement.setNull(place, none.type());
    } else if (value == null) {
      statement.setNull(place, Types.VARCHAR);
    } else if (value instanceof Instant instant) {
      statement.setLong(place, instant.toEpochMilli());
    } else if (value instanceof Enum<?> word) {
      statement.setString(place, word.name());
    } else if (value instanceof byte[] bytes) {
      statement.setBytes(place, bytes);
    } else {
      statement.setObject(place, value);
    }
  }

  /** No value of a type of {@link Types}. */
  record None(int type) {
    static final None BYTES = new None(Types.VARBINARY);
  }

  /** Adds a row. */
  void add() throws SQLException {
    statement.executeUpdate();
  }

  /** Adds a row and answers its number. */
  long addNumbered() throws SQLException {
    return first(row -> row.number("id")).orElseThrow();
  }

  <T> Optional<T> first(Reader<T> reader) throws SQLException {
    try (ResultSet rows = statement.executeQuery()) {
      return rows.next() ? Optional.of(reader.read(new Row(rows))) : Optional.empty();
    }
  }

  <T> List<T> all(Reader<T> reader) throws SQLException {
    List<T> all = new ArrayList<>();
    try (ResultSet rows = statement.executeQuery()) {
      Row row = new Row(rows);
      while (rows.next()) {
        all.add(reader.read(row));
      }
    }
    return all;
  }

  @Override
  public void close() throws SQLException {
    statement.close();
  }

  /** One row of an answer. */
  record Row(ResultSet rows) {
    long number(String column) throws SQLException {
      return rows.getLong(column);
    }

    int count(String column) throws SQLException {
      return rows.getInt(column);
    }

    String text(String column) throws SQLException {
      return rows.getString(column);
    }

    Optional<String> maybeText(String column) throws SQLException {
      return Optional.ofNullable(rows.getString(column));
    }

    double real(String column) throws SQLException {
      return rows.getDouble(column);
    }

    OptionalDouble maybeReal(String column) throws SQLException {
      double value = rows.getDouble(column);
      return rows.wasNull() ? OptionalDouble.empty() : OptionalDouble.of(value);
    }

    Optional<byte[]> maybeBytes(String column) throws SQLException {
      return Optional.ofNullable(rows.getBytes(column));
    }

    Instant instant(String column) throws SQLException {
      return Instant.ofEpochMilli(rows.getLong(column));
    }

    <E extends Enum<E>> E word(String column, Class<E> type) throws SQLException {
      return Enum.valueOf(type, rows.getString(column));
    }
  }
}
