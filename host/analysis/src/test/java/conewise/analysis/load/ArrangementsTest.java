package conewise.analysis.load;

import static org.junit.jupiter.api.Assertions.assertEquals;
import static org.junit.jupiter.api.Assertions.assertInstanceOf;
import static org.junit.jupiter.api.Assertions.assertThrows;
import static org.junit.jupiter.api.Assertions.assertTrue;

import conewise.analysis.model.Circuit.Coil;
import conewise.analysis.outcome.Outcome;
import conewise.analysis.outcome.Outcome.Found;
import conewise.analysis.outcome.Outcome.NoResult;
import java.util.HashSet;
import java.util.List;
import java.util.Set;
import java.util.stream.IntStream;
import org.junit.jupiter.api.Test;
import org.junit.jupiter.params.ParameterizedTest;
import org.junit.jupiter.params.provider.CsvSource;

class ArrangementsTest {
  private static List<Coil> coils(int count) {
    return IntStream.rangeClosed(1, count)
        .mapToObj(number -> new Coil("coil", number, false))
        .toList();
  }

  private static List<Arrangement> found(Outcome<List<Arrangement>> near) {
    assertInstanceOf(Found.class, near, near.toString());
    return ((Found<List<Arrangement>>) near).value();
  }

  /**
   * Series-parallel networks of n like resistors (P. A. MacMahon, 1892; sequence A000084 of the
   * On-Line Encyclopedia of Integer Sequences), and the resistances that they come to (A048211);
   * both from memory.
   */
  @ParameterizedTest
  @CsvSource({
    "1, 1, 1",
    "2, 2, 2",
    "3, 4, 4",
    "4, 10, 9",
    "5, 24, 22",
    "6, 66, 53",
    "7, 180, 131",
    "8, 522, 337"
  })
  void thereAreAsManyWaysAndLoadsAsCombinatoricsSays(int count, int ways, int loads) {
    List<Arrangement> all = Arrangements.all(coils(count), 1);
    assertEquals(ways, all.size());
    assertEquals(ways, all.stream().map(Arrangement::circuit).distinct().count());
    Set<Long> values = new HashSet<>();
    all.forEach(each -> values.add(Math.round(1e9 * each.load().ohm())));
    assertEquals(loads, values.size());
    // Series and parallel exchanged, each way of 1 ohm coils has the inverse load.
    all.forEach(each -> assertTrue(values.contains(Math.round(1e9 / each.load().ohm()))));
    all.forEach(each -> assertEquals(count, new HashSet<>(each.circuit().coils()).size()));
  }

  /** Four 8 ohm coils for 8 ohm: two ways share evenly (common practice), and they come first. */
  @Test
  void theSimplestWaysThatShareEvenlyComeFirst() {
    List<Arrangement> ways = found(Arrangements.near(coils(4), 8, 8, 0.01));
    assertEquals(2, ways.stream().filter(Arrangement::sharesEvenly).count());
    assertTrue(ways.get(0).sharesEvenly() && ways.get(1).sharesEvenly());
    assertEquals(2, ways.get(0).depth());
    assertEquals(3, ways.get(0).joins());
    List<Arrangement> low = found(Arrangements.near(coils(4), 8, 2, 0));
    assertEquals(1, low.get(0).depth());
    assertEquals(1, low.size());
  }

  @Test
  void whatNoWayGivesIsToldWithItsNeighbours() {
    Outcome<List<Arrangement>> none = Arrangements.near(coils(2), 4, 4, 0.1);
    String because = ((NoResult<List<Arrangement>>) none).because();
    assertTrue(because.contains("2 and 8 ohm"), because);
    Outcome<List<Arrangement>> low = Arrangements.near(coils(2), 4, 1, 0.1);
    assertTrue(((NoResult<List<Arrangement>>) low).because().contains("the lowest is 2 ohm"));
  }

  @Test
  void anExactLoadIsFoundWithoutTolerance() {
    assertEquals(1, found(Arrangements.near(coils(3), 8, 8.0 / 3, 0)).size());
    assertEquals(1, found(Arrangements.near(coils(3), 0.1, 0.1 * 3, 0)).size());
  }

  @Test
  void refusesTooManyCoilsAndMadWishes() {
    List<Coil> nine = coils(9);
    String message =
        assertThrows(IllegalArgumentException.class, () -> Arrangements.all(nine, 8)).getMessage();
    assertTrue(message.contains("9 coils") && message.contains("1 to 8"), message);
    List<Coil> two = coils(2);
    assertThrows(IllegalArgumentException.class, () -> Arrangements.near(two, 8, 0, 0.1));
    assertThrows(IllegalArgumentException.class, () -> Arrangements.near(two, 8, 8, 1));
    List<Coil> twice = List.of(two.get(0), two.get(0));
    assertThrows(IllegalArgumentException.class, () -> Arrangements.all(twice, 8));
  }
}
