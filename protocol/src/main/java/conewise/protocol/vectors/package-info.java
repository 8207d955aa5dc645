/**
 * The vectors that pin the wire (see {@code protocol/vectors/README.md}): reading them, and running
 * dialogues against any jig, virtual or real.
 *
 * <p>Entry: {@link conewise.protocol.vectors.DialogueFile#packaged} and {@link
 * conewise.protocol.vectors.DialogueRunner}; {@link conewise.protocol.vectors.VectorFile} for
 * single lines.
 */
package conewise.protocol.vectors;
