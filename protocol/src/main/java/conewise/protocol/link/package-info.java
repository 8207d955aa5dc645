/** What carries the bytes between host and jig. Entry: {@link conewise.protocol.link.ByteLink}. */
package conewise.protocol.link;
