package conewise.station.calibrating;

import static org.junit.jupiter.api.Assertions.assertEquals;
import static org.junit.jupiter.api.Assertions.assertTrue;

import java.nio.file.Files;
import java.nio.file.Path;
import java.util.List;
import java.util.regex.Matcher;
import java.util.regex.Pattern;
import org.junit.jupiter.api.Test;

/**
 * The page's table of leads against ASTM B258 (diameter of AWG n: 0.127 mm x 92^((36 - n)/39)) and
 * the resistivity of annealed copper, 1.7241e-8 ohm m at 20 degrees (IEC 60028), both from memory.
 */
class LeadTableTest {
  private static final Pattern ROW =
      Pattern.compile("\\| ([0-9]+) \\| ([0-9.]+) \\| ([0-9.]+) \\|");

  @Test
  void theTableOfLeadsIsThatOfTheStandard() throws Exception {
    Path page = Path.of("..", "..", "docs", "calibration.md");
    List<Matcher> rows =
        Files.readAllLines(page).stream().map(ROW::matcher).filter(Matcher::matches).toList();
    assertTrue(rows.size() >= 6, rows.size() + " rows");
    for (Matcher row : rows) {
      double metres = 0.127e-3 * Math.pow(92, (36 - Integer.parseInt(row.group(1))) / 39.0);
      double area = Math.PI / 4 * metres * metres;
      assertEquals(1e6 * area, Double.parseDouble(row.group(2)), 0.0005, row.group());
      assertEquals(
          1e3 * 2 * 1.7241e-8 / area, Double.parseDouble(row.group(3)), 0.051, row.group());
    }
  }
}
