/**
 * Boxes drawn with production tolerances and faults, built in the virtual jig's own physics,
 * measured and judged, and truth held against verdict. Entry: {@link conewise.station.study.Study}.
 */
package conewise.station.study;
