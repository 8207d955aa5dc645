package conewise.station.chart;

import java.util.ArrayList;
import java.util.List;
import java.util.Optional;

/**
 * Finds a place for the name of a curve in a pane: as near to the curve as may be, on nothing that
 * is drawn there.
 */
final class CurveNames {
  private static final double LETTER_WIDTH = 7;
  static final double LINE_HEIGHT = 15;
  private static final double AROUND = 5;
  private static final double STEP = 6;

  /** What lies nearer has a name that may be taken for the next curve's. */
  private static final double NEAREST = 14;

  private final double left;
  private final double right;
  private final double top;
  private final double bottom;
  private final List<double[]> ink = new ArrayList<>();
  private final List<Room> taken = new ArrayList<>();

  /** A rectangle by its upper left corner. */
  record Room(double x, double y, double width, double height) {
    boolean covers(Room other) {
      return x < other.x + other.width
          && other.x < x + width
          && y < other.y + other.height
          && other.y < y + height;
    }

    boolean holds(double[] point, double around) {
      return point[0] > x - around
          && point[0] < x + width + around
          && point[1] > y - around
          && point[1] < y + height + around;
    }
  }

  /**
   * A place.
   *
   * @param room where the name stands
   * @param from where a line begins that leads to the curve, at the room's edge
   * @param to where it ends, on the curve
   */
  record Place(Room room, Spot from, Spot to) {
    double away() {
      return Math.hypot(from.x - to.x, from.y - to.y);
    }
  }

  /** A point of the picture. */
  record Spot(double x, double y) {}

  CurveNames(double left, double right, double top, double bottom) {
    this.left = left;
    this.right = right;
    this.top = top;
    this.bottom = bottom;
  }

  /** A line that no name may lie on, through points near one another. */
  void draw(List<double[]> line) {
    for (int i = 0; i < line.size(); i++) {
      double[] to = line.get(i);
      double[] from = line.get(Math.max(0, i - 1));
      int parts = 1 + (int) (Math.hypot(to[0] - from[0], to[1] - from[1]) / STEP);
      for (int part = 0; part < parts; part++) {
        double share = (double) part / parts;
        ink.add(
            new double[] {to[0] + share * (from[0] - to[0]), to[1] + share * (from[1] - to[1])});
      }
    }
  }

  /** A rectangle that no name may lie on. */
  void take(Room room) {
    taken.add(room);
  }

  static double width(List<String> lines) {
    return LETTER_WIDTH * lines.stream().mapToInt(String::length).max().orElse(0);
  }

  /**
   * The best place, which is taken from then on.
   *
   * @param lines the name
   * @param before room for a sign before it
   * @param curve of which it is, drawn before
   * @return none where the pane is full
   */
  Optional<Place> place(List<String> lines, double before, List<double[]> curve) {
    double width = width(lines) + before;
    double height = LINE_HEIGHT * lines.size();
    Optional<Place> best = Optional.empty();
    double shortest = Double.POSITIVE_INFINITY;
    for (double y = top + AROUND; y + height < bottom - AROUND; y += STEP) {
      for (double x = left + AROUND; x + width < right - AROUND; x += STEP) {
        Room room = new Room(x, y, width, height);
        Place place = nearest(room, curve);
        double away = place.away();
        if (away >= NEAREST && away < shortest && isFree(room)) {
          shortest = away;
          best = Optional.of(place);
        }
      }
    }
    best.ifPresent(place -> taken.add(place.room));
    return best;
  }

  private boolean isFree(Room room) {
    return taken.stream().noneMatch(room::covers)
        && ink.stream().noneMatch(point -> room.holds(point, AROUND));
  }

  private static Place nearest(Room room, List<double[]> curve) {
    Place best = null;
    double shortest = Double.POSITIVE_INFINITY;
    for (double[] point : curve) {
      double x = Math.max(room.x, Math.min(room.x + room.width, point[0]));
      double y = Math.max(room.y, Math.min(room.y + room.height, point[1]));
      Place place = new Place(room, new Spot(x, y), new Spot(point[0], point[1]));
      if (place.away() < shortest) {
        shortest = place.away();
        best = place;
      }
    }
    if (best == null) {
      throw new IllegalArgumentException("a name is of a curve of at least 1 point; it had 0");
    }
    return best;
  }
}
