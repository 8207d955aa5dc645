package conewise.station.report;

import java.io.IOException;
import java.io.InputStream;
import java.io.UncheckedIOException;
import java.nio.charset.StandardCharsets;

/** The style sheets and scripts that come with the program. */
public final class PageStyle {
  private PageStyle() {}

  /**
   * The text of one.
   *
   * @param name its file name
   */
  public static String named(String name) {
    try (InputStream in = PageStyle.class.getResourceAsStream("/conewise/station/" + name)) {
      if (in == null) {
        throw new IllegalStateException(
            "the page's style " + name + " is missing from the program");
      }
      return new String(in.readAllBytes(), StandardCharsets.UTF_8);
    } catch (IOException e) {
      throw new UncheckedIOException("the page's style " + name + " could not be read", e);
    }
  }
}
