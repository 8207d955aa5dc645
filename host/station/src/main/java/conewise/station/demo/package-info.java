/**
 * An invented small workshop's boxes, measured and judged through the real protocol. Entry: {@link
 * conewise.station.demo.Demo}.
 */
package conewise.station.demo;
