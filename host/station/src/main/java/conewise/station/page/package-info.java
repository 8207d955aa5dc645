/**
 * The bench's screen: one page served on this machine, which shows what {@link
 * conewise.station.shift.Bench} tells and passes on what people ask for. Entry: {@link
 * conewise.station.page.StationServer}.
 */
package conewise.station.page;
