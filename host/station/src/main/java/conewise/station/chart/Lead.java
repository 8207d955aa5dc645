package conewise.station.chart;

import java.util.List;

/**
 * A lead of a wiring: all that is joined without anything between.
 *
 * @param letter A, B, C... from the box's + terminal to its - terminal
 * @param colour its name for people; letters go on where colours come again
 * @param ends what it joins, e.g. "+ of coil 1 of left", the box's terminal first
 */
public record Lead(String letter, Colour colour, List<String> ends) {

  /** The Okabe-Ito set. The box's + is vermilion and its - black. */
  public enum Colour {
    VERMILION("vermilion"),
    BLACK("black"),
    SKY_BLUE("sky blue"),
    ORANGE("orange"),
    GREEN("green"),
    YELLOW("yellow"),
    BLUE("blue"),
    PURPLE("purple");

    private static final int ENDS = 2;

    private final String words;

    Colour(String words) {
      this.words = words;
    }

    /** For people: "sky blue". */
    public String words() {
      return words;
    }

    /** Of the lead of a number, of so many. */
    static Colour of(int lead, int leads) {
      if (lead == 0) {
        return VERMILION;
      }
      int between = values().length - ENDS;
      return lead == leads - 1 ? BLACK : values()[ENDS + (lead - 1) % between];
    }
  }

  public Lead {
    ends = List.copyOf(ends);
  }

  /** The letter of a lead's number: A to Z, then AA, AB... */
  static String letter(int number) {
    String last = String.valueOf((char) ('A' + number % 26));
    return number < 26 ? last : letter(number / 26 - 1) + last;
  }
}
