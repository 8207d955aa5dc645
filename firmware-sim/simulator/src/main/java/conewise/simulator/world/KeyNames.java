package conewise.simulator.world;

import com.fasterxml.jackson.databind.PropertyNamingStrategies;
import java.util.Locale;

/** Turns a component's name into a key: each capital starts a word, so PaSPerM3 is pa_s_per_m3. */
final class KeyNames extends PropertyNamingStrategies.NamingBase {
  private static final long serialVersionUID = 1;

  @Override
  public String translate(String component) {
    return component.replaceAll("([A-Z])", "_$1").toLowerCase(Locale.ROOT);
  }
}
