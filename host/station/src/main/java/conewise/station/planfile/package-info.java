/** Plans of boxes in files, YAML or JSON. Entry: {@link conewise.station.planfile.PlanFile}. */
package conewise.station.planfile;
