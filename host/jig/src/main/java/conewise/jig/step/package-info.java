/**
 * Short steps of steady voltage, recorded with a microphone where there is one: the pop test by the
 * jig itself. Entry: {@link conewise.jig.step.StepDrive}.
 */
package conewise.jig.step;
