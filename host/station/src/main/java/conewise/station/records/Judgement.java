package conewise.station.records;

import conewise.analysis.judgement.Verdict;
import java.time.Instant;

/**
 * How a kept run was judged.
 *
 * @param number 1 on the bench; later ones were judged again
 * @param limitsVersion which of the job's limits
 * @param plan the plan that has them
 * @param at when
 * @param software by which version of this application
 * @param verdict what was said
 */
public record Judgement(
    int number, int limitsVersion, PlanText plan, Instant at, String software, Verdict verdict) {}
