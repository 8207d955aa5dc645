package conewise.station.records.trend;

import java.util.Collection;
import java.util.LinkedHashSet;
import java.util.List;
import java.util.Set;

/**
 * Which serials never had a run.
 *
 * @param asked how many serials were asked for, each once
 * @param missing those without a run, in the order in which they were asked for
 */
public record Untested(int asked, List<String> missing) {
  public Untested {
    missing = List.copyOf(missing);
  }

  /** Of some serials, those that are not among the ones that have a run. */
  public static Untested of(Collection<String> asked, Collection<String> there) {
    Set<String> missing = new LinkedHashSet<>(asked);
    int count = missing.size();
    there.forEach(missing::remove);
    return new Untested(count, List.copyOf(missing));
  }
}
