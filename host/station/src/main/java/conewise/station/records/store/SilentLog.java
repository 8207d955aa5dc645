package conewise.station.records.store;

import org.flywaydb.core.api.logging.Log;
import org.flywaydb.core.api.logging.LogCreator;

/**
 * Hears what the migrations have to say, and keeps it to itself: what goes wrong is told by
 * exceptions. Made by Flyway, by its name.
 */
public final class SilentLog implements LogCreator, Log {
  @Override
  public Log createLogger(Class<?> speaker) {
    return this;
  }

  // Asked for by the interface, though nobody should call it any more.
  @SuppressWarnings("deprecation")
  @Override
  public boolean isDebugEnabled() {
    return false;
  }

  @Override
  public void debug(String message) {}

  @Override
  public void info(String message) {}

  @Override
  public void warn(String message) {}

  @Override
  public void error(String message) {}

  @Override
  public void error(String message, Exception problem) {}

  @Override
  public void notice(String message) {}
}
