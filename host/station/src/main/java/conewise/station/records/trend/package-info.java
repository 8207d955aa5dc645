/**
 * What many runs say together: yield by week, which faults are met most, drift of a figure, which
 * serials never came. Pure functions of what the store hands out. Entries: {@link
 * conewise.station.records.trend.WeeklyYield}, {@link conewise.station.records.trend.FaultCount},
 * {@link conewise.station.records.trend.ControlChart}, {@link
 * conewise.station.records.trend.SerialRange}.
 */
package conewise.station.records.trend;
