package conewise.analysis.learning;

/**
 * A box that nothing was learned from.
 *
 * @param name which
 * @param because why, without a full stop
 */
public record LeftOut(String name, String because) {}
