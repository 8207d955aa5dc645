/**
 * Holds any jig to the wire's specification by the dialogues that come with it. Entry: {@link
 * conewise.jig.conformance.Conformance}.
 */
package conewise.jig.conformance;
