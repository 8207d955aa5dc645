/**
 * How much of the spread of readings is the gauge's own: several parts, each read several times by
 * several operators. Entry: {@link conewise.analysis.gauge.GaugeStudy}.
 */
package conewise.analysis.gauge;
