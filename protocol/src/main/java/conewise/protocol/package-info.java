/** The wire between jig and host: lines, checksums, requests, replies. See protocol/spec.md. */
package conewise.protocol;
