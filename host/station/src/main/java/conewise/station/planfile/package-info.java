/**
 * Plans of boxes in files, YAML or JSON. Entry: {@link conewise.station.planfile.PlannedBoxFile}
 * reads them, {@link conewise.station.planfile.PlannedBoxText} writes them.
 */
package conewise.station.planfile;
