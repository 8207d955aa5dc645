/**
 * Leads to a box: gauge, resistance, and what they take. Entries: {@link
 * conewise.analysis.lead.Lead}, {@link conewise.analysis.lead.Gauge}.
 */
package conewise.analysis.lead;
