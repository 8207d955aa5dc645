package conewise.station.chart;

import static org.junit.jupiter.api.Assertions.assertFalse;
import static org.junit.jupiter.api.Assertions.assertTrue;

import java.util.ArrayList;
import java.util.List;
import java.util.Optional;
import java.util.Random;
import org.junit.jupiter.api.Test;

/** Names beside their curves. */
class CurveNamesTest {

  private static List<double[]> wandering(Random random) {
    List<double[]> line = new ArrayList<>();
    double y = 50 + 150 * random.nextDouble();
    for (double x = 62; x <= 742; x += 8) {
      y = Math.max(14, Math.min(270, y + 6 * random.nextGaussian()));
      line.add(new double[] {x, y});
    }
    return line;
  }

  @Test
  void noNameLiesOnALineOrOnAnotherName() {
    long seed = new Random().nextLong();
    Random random = new Random(seed);
    for (int run = 0; run < 20; run++) {
      CurveNames names = new CurveNames(62, 742, 14, 270);
      List<List<double[]>> lines = List.of(wandering(random), wandering(random));
      lines.forEach(names::draw);
      List<CurveNames.Room> rooms = new ArrayList<>();
      for (List<double[]> line : lines) {
        Optional<CurveNames.Place> place = names.place(List.of("measured"), 32, line);
        assertTrue(place.isPresent(), "no place, seed " + seed);
        CurveNames.Room room = place.get().room();
        for (List<double[]> other : lines) {
          assertTrue(other.stream().noneMatch(p -> room.holds(p, 0)), "on a line, seed " + seed);
        }
        assertTrue(room.x() >= 62 && room.x() + room.width() <= 742, "outside, seed " + seed);
        assertTrue(rooms.stream().noneMatch(room::covers), "on a name, seed " + seed);
        rooms.add(room);
      }
    }
  }

  @Test
  void aFullPaneHasNoPlace() {
    CurveNames names = new CurveNames(62, 742, 14, 270);
    List<double[]> lines = new ArrayList<>();
    for (double y = 14; y <= 270; y += 10) {
      lines.add(new double[] {62, y});
      lines.add(new double[] {742, y});
    }
    names.draw(lines);
    assertFalse(names.place(List.of("measured"), 32, lines).isPresent());
  }
}
