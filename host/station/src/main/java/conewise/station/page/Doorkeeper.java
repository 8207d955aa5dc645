package conewise.station.page;

import io.javalin.http.ContentTooLargeResponse;
import io.javalin.http.Context;
import io.javalin.http.Cookie;
import io.javalin.http.ForbiddenResponse;
import io.javalin.http.SameSite;
import java.nio.charset.StandardCharsets;
import java.security.MessageDigest;
import java.util.Optional;
import java.util.Set;

/**
 * Lets in who may come in. On the loopback address that is whoever is on this machine, asking this
 * machine by its own name: another site's page that has its name lead here is turned away by the
 * Host header, and its forms by the Origin header. On any other address a token is asked for as
 * well.
 */
final class Doorkeeper {
  private static final int LARGEST_ORDER_BYTES = 8192;
  private static final String COOKIE = "conewise_token";

  private final Optional<String> token;
  private final Set<String> names;

  /**
   * A doorkeeper.
   *
   * @param names how this machine may be called, with port
   * @param token what must be known to come in from elsewhere; none on the loopback address
   */
  Doorkeeper(Set<String> names, Optional<String> token) {
    this.names = Set.copyOf(names);
    this.token = token;
  }

  /** Throws where somebody may not come in. */
  void check(Context request) {
    String host = Optional.ofNullable(request.header("Host")).orElse("");
    if (!names.contains(host)) {
      throw new ForbiddenResponse("This bench is not called " + tame(host) + ".");
    }
    if (!request.method().name().equals("GET")
        && !("http://" + host).equals(request.header("Origin"))) {
      throw new ForbiddenResponse("Orders are taken from the bench's own page alone.");
    }
    if (request.contentLength() > LARGEST_ORDER_BYTES) {
      request.header("Connection", "close");
      throw new ContentTooLargeResponse("An order has at most " + LARGEST_ORDER_BYTES + " bytes.");
    }
    token.ifPresent(secret -> checkToken(request, secret));
  }

  private static void checkToken(Context request, String secret) {
    String shown = request.queryParam("token");
    if (shown != null && same(shown, secret)) {
      request.cookie(
          new Cookie(COOKIE, secret, "/", -1, false, 0, true, null, null, SameSite.STRICT));
      return;
    }
    String kept = request.cookie(COOKIE);
    if (kept == null || !same(kept, secret)) {
      throw new ForbiddenResponse(
          "Open the bench by the address that the station printed, with its token.");
    }
  }

  /** In the same time whatever is shown. */
  private static boolean same(String shown, String secret) {
    return MessageDigest.isEqual(
        shown.getBytes(StandardCharsets.UTF_8), secret.getBytes(StandardCharsets.UTF_8));
  }

  private static String tame(String host) {
    return host.replaceAll("[^A-Za-z0-9.:\\[\\]-]", "?");
  }
}
