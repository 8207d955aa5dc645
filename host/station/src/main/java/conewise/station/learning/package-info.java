/**
 * What was learned from good boxes, as a plan and in words. Entry: {@link
 * conewise.station.learning.LessonText}.
 */
package conewise.station.learning;
