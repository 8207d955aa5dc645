/**
 * The wire between jig and host, version 1 (see {@code protocol/spec.md}): lines, checksums,
 * requests, replies, sample blocks and what a jig says about itself. No port and no clock.
 *
 * <p>Entry: a {@link conewise.protocol.LineReader} turns bytes into lines; {@link
 * conewise.protocol.ReplyParser} (host) or {@link conewise.protocol.RequestParser} (jig) turns a
 * line into a {@link conewise.protocol.Message}; {@link conewise.protocol.Message#toLine} goes the
 * other way.
 */
package conewise.protocol;
