/**
 * What is wrong with a box, and how sure that is: every fault that it may have is fitted to its
 * sweeps, and the evidence for each is weighed. Entry: {@link
 * conewise.analysis.diagnosis.Diagnosis}.
 */
package conewise.analysis.diagnosis;
