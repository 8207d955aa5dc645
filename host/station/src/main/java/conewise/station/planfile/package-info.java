/**
 * Plans of boxes in files, YAML or JSON. Entry: {@link conewise.station.planfile.PlannedBoxFile}.
 */
package conewise.station.planfile;
