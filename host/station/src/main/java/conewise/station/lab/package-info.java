/**
 * Exercises for a teaching lab: data sets drawn from a student's number, their answer key, and the
 * marking of answers. Entries: {@link conewise.station.lab.Assignments}, {@link
 * conewise.station.lab.LabFolder}, {@link conewise.station.lab.Marking}.
 */
package conewise.station.lab;
