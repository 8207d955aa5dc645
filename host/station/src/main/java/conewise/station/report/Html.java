package conewise.station.report;

import conewise.station.card.PlainText;

/** Text on its way into a page. */
public final class Html {
  private Html() {}

  /** Tames control characters and escapes all five letters that mean something in HTML. */
  public static String text(String raw) {
    String tame = PlainText.tame(raw);
    StringBuilder escaped = new StringBuilder(tame.length() + 16);
    for (int i = 0; i < tame.length(); i++) {
      char letter = tame.charAt(i);
      switch (letter) {
        case '&' -> escaped.append("&amp;");
        case '<' -> escaped.append("&lt;");
        case '>' -> escaped.append("&gt;");
        case '"' -> escaped.append("&quot;");
        case '\'' -> escaped.append("&#39;");
        default -> escaped.append(letter);
      }
    }
    return escaped.toString();
  }
}
