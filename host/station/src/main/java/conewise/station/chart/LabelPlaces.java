package conewise.station.chart;

import java.util.ArrayList;
import java.util.List;

/** Finds places for labels beside marks so that none covers another or leaves the pane. */
final class LabelPlaces {
  private static final double LETTER_WIDTH = 6.2;
  private static final double LINE_HEIGHT = 14;
  private static final int MOST_SHIFTS = 8;

  private final double left;
  private final double right;
  private final List<Place> taken = new ArrayList<>();

  /**
   * Where a label stands.
   *
   * @param centre its middle across
   * @param baseline the line it stands on
   * @param width how wide it is
   */
  record Place(double centre, double baseline, double width) {
    boolean covers(Place other) {
      return Math.abs(centre - other.centre) < (width + other.width) / 2
          && Math.abs(baseline - other.baseline) < LINE_HEIGHT;
    }
  }

  LabelPlaces(double left, double right) {
    this.left = left;
    this.right = right;
  }

  /** The nearest free place above (or below) the one wished for. */
  Place place(double centre, double baseline, int letters, boolean upwards) {
    double width = letters * LETTER_WIDTH;
    double inside = Math.max(left + width / 2, Math.min(right - width / 2, centre));
    Place place = new Place(inside, baseline, width);
    for (int shift = 1; shift <= MOST_SHIFTS && taken.stream().anyMatch(place::covers); shift++) {
      double moved = baseline + (upwards ? -1 : 1) * shift * LINE_HEIGHT;
      place = new Place(inside, moved, width);
    }
    taken.add(place);
    return place;
  }
}
