package conewise.station.page;

import static org.junit.jupiter.api.Assertions.assertEquals;

import conewise.analysis.diagnosis.Rates;
import conewise.station.desk.Desk;
import conewise.station.records.store.RecordPlace;
import conewise.station.records.store.RecordStore;
import conewise.station.shift.Bench;
import conewise.station.shift.JigSource;
import conewise.station.shift.JobShelf;
import conewise.station.shift.RecordKeeper;
import java.io.BufferedReader;
import java.io.InputStreamReader;
import java.net.InetAddress;
import java.net.Socket;
import java.nio.charset.StandardCharsets;
import java.nio.file.Path;
import java.time.Clock;
import java.util.Optional;
import org.junit.jupiter.api.AfterEach;
import org.junit.jupiter.api.Test;
import org.junit.jupiter.api.io.TempDir;
import org.mockito.Mockito;

/** Who is let in, by requests written letter by letter: a browser would not send the bad ones. */
class DoorkeeperTest {
  @TempDir private Path shelf;
  private RecordStore store;
  private Bench bench;
  private StationServer server;

  private void serve(Optional<String> token) throws Exception {
    JigSource none = Mockito.mock(JigSource.class);
    Mockito.when(none.connect())
        .thenThrow(
            new conewise.station.answer.CommandFailure(
                conewise.station.answer.ExitCode.NO_JIG, "No jig."));
    store = RecordStore.open(new RecordPlace.OfFile(shelf.resolve("records.db")));
    bench =
        new Bench(
            JobShelf.bundled(),
            none,
            new RecordKeeper(store),
            new Bench.Setting(false, Rates.USUAL, "bench", "of the test"),
            Clock.systemUTC());
    server =
        new StationServer(
            bench,
            new StationServer.Place("127.0.0.1", 0, token),
            Optional.empty(),
            new Desk(Optional.of(store), Clock.systemUTC()));
  }

  @AfterEach
  void end() {
    server.close();
    bench.close();
    store.close();
  }

  private String status(String head, String... lines) throws Exception {
    return statusOf("", head, lines);
  }

  private String statusOf(String body, String head, String... lines) throws Exception {
    try (Socket socket = new Socket(InetAddress.getLoopbackAddress(), server.port())) {
      String request =
          head
              + " HTTP/1.1\r\n"
              + String.join("\r\n", lines)
              + "\r\n"
              + "Connection: close\r\n\r\n"
              + body;
      socket.getOutputStream().write(request.getBytes(StandardCharsets.UTF_8));
      BufferedReader answer =
          new BufferedReader(
              new InputStreamReader(socket.getInputStream(), StandardCharsets.UTF_8));
      return answer.readLine().split(" ", -1)[1];
    }
  }

  private String host() {
    return "Host: 127.0.0.1:" + server.port();
  }

  private String origin() {
    return "Origin: http://127.0.0.1:" + server.port();
  }

  private static final String FORM = "Content-Type: application/x-www-form-urlencoded";

  @Test
  void thePageIsForThisMachineByItsOwnName() throws Exception {
    serve(Optional.empty());
    assertEquals("200", status("GET /", host()));
    assertEquals("200", status("GET /", "Host: localhost:" + server.port()));
    assertEquals("403", status("GET /", "Host: bench.example:" + server.port()));
    assertEquals("403", status("GET /events", "Host: bench.example"));
    assertEquals("403", status("GET /records", "Host: bench.example"));
    assertEquals("200", status("GET /records", host()));
    assertEquals("200", status("GET /work-out/vent", host()));
    assertEquals("303", status("GET /work-out/vent?tuning=34Hz&length=", host()));
    assertEquals("404", status("GET /records/run/1", host()));
    assertEquals("404", status("GET /work-out/vnt", host()));
  }

  @Test
  void ordersComeFromThePageItselfAlone() throws Exception {
    serve(Optional.empty());
    String body = "Content-Length: 0";
    assertEquals("204", status("POST /do/stop", host(), origin(), FORM, body));
    assertEquals("403", status("POST /do/stop", host(), FORM, body));
    assertEquals("403", status("POST /do/stop", host(), "Origin: null", FORM, body));
    assertEquals("403", status("POST /do/stop", host(), "Origin: http://shop.example", FORM, body));
    assertEquals("400", status("POST /do/scan", host(), origin(), FORM, body));
    assertEquals("400", status("POST /do/virtual-box", host(), origin(), FORM, body));
    assertEquals("404", status("POST /do/nothing", host(), origin(), FORM, body));
    assertEquals("404", status("GET /card", host()));
    assertEquals("403", status("POST /records/run/1", host(), FORM, body));
    assertEquals("403", status("POST /records/run/1", host(), "Origin: null", FORM, body));
    assertEquals("404", status("POST /records/run/1", host(), origin(), FORM, body));
  }

  @Test
  void anOrderTooLongIsRefused() throws Exception {
    serve(Optional.empty());
    String body = "text=" + "a".repeat(9000);
    String length = "Content-Length: " + body.length();
    assertEquals("413", statusOf(body, "POST /do/scan", host(), origin(), FORM, length));
  }

  @Test
  void elsewhereATokenIsAskedFor() throws Exception {
    serve(Optional.of("b1a5"));
    assertEquals("403", status("GET /", host()));
    assertEquals("403", status("GET /?token=b1a6", host()));
    assertEquals("403", status("GET /records", host()));
    assertEquals("403", status("GET /work-out", host()));
    assertEquals("200", status("GET /?token=b1a5", host()));
    assertEquals("200", status("GET /bench.js", host(), "Cookie: conewise_token=b1a5"));
    assertEquals("403", status("GET /bench.js", host(), "Cookie: conewise_token=b1a"));
  }
}
