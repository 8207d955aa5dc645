package conewise.jig.client;

/**
 * How a link has behaved since the client was made.
 *
 * @param bytesHeard bytes that came from the jig
 * @param damagedLines lines that came damaged or were not a jig's
 * @param repeatedRequests requests that had to be sent again
 * @param strayLines whole lines that answered nothing that was asked
 */
public record LinkHealth(
    long bytesHeard, long damagedLines, long repeatedRequests, long strayLines) {}
