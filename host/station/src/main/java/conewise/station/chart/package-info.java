/**
 * Curves drawn: as SVG for the report and as characters for a terminal. Entries: {@link
 * conewise.station.chart.SvgChart}, {@link conewise.station.chart.TerminalChart}.
 */
package conewise.station.chart;
