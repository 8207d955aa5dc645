package conewise.station.page;

import com.fasterxml.jackson.databind.node.JsonNodeFactory;
import conewise.station.card.JobCard;
import conewise.station.desk.Desk;
import conewise.station.desk.Reply;
import conewise.station.pop.MotionWords;
import conewise.station.records.Overruling;
import conewise.station.report.JobCardPage;
import conewise.station.report.OverrulingHtml;
import conewise.station.report.PageStyle;
import conewise.station.shift.Bench;
import conewise.station.shift.BenchState;
import conewise.station.shift.KeepingException;
import io.javalin.Javalin;
import io.javalin.http.BadRequestResponse;
import io.javalin.http.Context;
import io.javalin.http.HttpResponseException;
import io.javalin.http.NotFoundResponse;
import io.javalin.http.ServiceUnavailableResponse;
import java.time.Clock;
import java.time.ZoneId;
import java.util.List;
import java.util.Locale;
import java.util.Map;
import java.util.Optional;
import java.util.function.BiFunction;
import java.util.stream.Collectors;
import java.util.stream.Stream;

/** Serves one bench's page. */
public final class StationServer implements AutoCloseable {
  private static final Map<String, String> FILES =
      Map.of(
          "bench.css", "text/css",
          "job-card.css", "text/css",
          "records.css", "text/css",
          "desk.css", "text/css",
          "label.css", "text/css",
          "wiring.css", "text/css",
          "bench.js", "text/javascript");

  private static final String REPORT = "/card";

  /** Pages bring styles and widths of bars along, but no script but the bench's own file. */
  private static final String POLICY =
      "default-src 'self'; style-src 'self' 'unsafe-inline'; form-action 'self';"
          + " base-uri 'none'; frame-ancestors 'none'";

  private static final int SEE_OTHER = 303;

  private final Bench bench;
  private final Javalin web;
  private final StateStream stream;
  private final Optional<VirtualBox> virtual;
  private final Desk desk;

  /** The box on a virtual jig, which a page may exchange. */
  public interface VirtualBox {
    /** The boxes that there are. */
    List<String> names();

    /** The one on the clips. */
    String now();

    /** Puts another on the clips. */
    void put(String name);
  }

  /**
   * Where the page is served.
   *
   * @param host the address to listen on
   * @param port 0 for any free one
   * @param token what must be known to come in; none on the loopback address
   */
  public record Place(String host, int port, Optional<String> token) {}

  /**
   * Begins to serve the bench's page and the calculations, without records.
   *
   * @throws io.javalin.util.JavalinException when the port is taken
   */
  public StationServer(Bench bench, Place place, Optional<VirtualBox> virtual) {
    this(bench, place, virtual, new Desk(Optional.empty(), Clock.system(ZoneId.systemDefault())));
  }

  /**
   * Begins to serve.
   *
   * @param desk answers what is asked of the records and the calculations
   * @throws io.javalin.util.JavalinException when the port is taken
   */
  public StationServer(Bench bench, Place place, Optional<VirtualBox> virtual, Desk desk) {
    this.bench = bench;
    this.virtual = virtual;
    this.desk = desk;
    stream = new StateStream(bench, this::snapshot);
    Doors doors = new Doors(place);
    web =
        Javalin.create(
            config -> {
              config.showJavalinBanner = false;
              config.startupWatcherEnabled = false;
            });
    web.before(request -> doors.keeper(web.port()).check(request));
    web.after(StationServer::closeToOthers);
    routes();
    web.start(place.host(), place.port());
  }

  /** The doorkeeper knows the port only when it is taken. */
  private record Doors(Place place) {
    Doorkeeper keeper(int port) {
      return new Doorkeeper(
          Stream.of("localhost", "127.0.0.1", "[::1]", place.host())
              .map(name -> name + ":" + port)
              .collect(Collectors.toSet()),
          place.token());
    }
  }

  /** The port that it is served on. */
  public int port() {
    return web.port();
  }

  private static void closeToOthers(Context answer) {
    answer.header("Content-Security-Policy", POLICY);
    answer.header("X-Content-Type-Options", "nosniff");
    // With "no-referrer" a browser sends a form of this very page with the Origin "null".
    answer.header("Referrer-Policy", "same-origin");
    answer.header("Cache-Control", "no-store");
  }

  private void routes() {
    web.get("/", request -> request.html(PageStyle.named("bench.html")));
    FILES.forEach(
        (name, type) ->
            web.get(
                "/" + name, request -> request.contentType(type).result(PageStyle.named(name))));
    web.sse("/events", stream::join);
    web.get(REPORT, request -> paper(request, StationServer::report));
    web.get("/label", request -> paper(request, LabelPage::of));
    for (String path : Desk.PATHS) {
      web.get(path, this::page);
      web.get(path + "/*", this::page);
      web.post(
          path + "/*", request -> give(request, desk.take(request.path(), request.formParamMap())));
    }
    order("scan", request -> bench.scan(field(request, "text")));
    order("start", request -> bench.start());
    order("stop", request -> bench.stop());
    order("operator", request -> bench.operator(field(request, "name")));
    order(
        "pop",
        request ->
            bench.pop(
                field(request, "driver"),
                MotionWords.read(field(request, "motion"))
                    .orElseThrow(() -> new BadRequestResponse("No such motion."))));
    order(
        "again",
        request ->
            bench.again(
                Choices.state(field(request, "change"), field(request, "part"))
                    .orElseThrow(() -> new BadRequestResponse("No such change."))));
    order("virtual-box", this::exchange);
    web.exception(
        HttpResponseException.class,
        (refused, answer) -> answer.status(refused.getStatus()).result(refused.getMessage()));
    web.exception(
        RuntimeException.class,
        (fault, answer) -> answer.status(500).result("The program met a fault of its own."));
  }

  private void page(Context request) {
    give(request, desk.page(request.path(), request.queryParamMap()));
  }

  private static void give(Context request, Reply reply) {
    if (reply instanceof Reply.Page page) {
      request.status(page.status()).html(page.html());
    } else if (reply instanceof Reply.Elsewhere elsewhere) {
      request.status(SEE_OTHER).header("Location", elsewhere.address());
    }
  }

  private interface Order {
    void take(Context request);
  }

  private void order(String name, Order order) {
    web.post(
        "/do/" + name,
        request -> {
          order.take(request);
          request.status(204);
        });
  }

  private void exchange(Context request) {
    VirtualBox boxes =
        virtual.orElseThrow(() -> new BadRequestResponse("This bench has a real jig."));
    String name = field(request, "name");
    if (!boxes.names().contains(name)) {
      throw new BadRequestResponse("No such box on the virtual jig.");
    }
    boxes.put(name);
    bench.meetJigAgain();
  }

  private static String field(Context request, String name) {
    String value = request.formParam(name);
    if (value == null) {
      throw new BadRequestResponse("The order lacks its " + name + ".");
    }
    return value;
  }

  /** A paper tells what people decided otherwise until this moment, or there is none. */
  private void paper(Context request, BiFunction<JobCard, List<Overruling>, String> writer) {
    BenchState.OnBench box =
        bench
            .state()
            .box()
            .filter(each -> each.card().isPresent())
            .orElseThrow(() -> new NotFoundResponse("No box is judged at this moment."));
    try {
      request.html(writer.apply(box.card().orElseThrow(), bench.overrulings(box)));
    } catch (KeepingException unread) {
      throw new ServiceUnavailableResponse(
          "No paper, because it cannot be read whether somebody has overruled this verdict: "
              + unread.getMessage());
    }
  }

  private static String report(JobCard card, List<Overruling> overruled) {
    return JobCardPage.write(card, overruled.stream().map(OverrulingHtml::words).toList());
  }

  /** What the page shows, as one JSON object. */
  private String snapshot(BenchState state) {
    var node =
        JsonNodeFactory.instance
            .objectNode()
            .put("version", state.version())
            .put("phase", state.phase().name().toLowerCase(Locale.ROOT))
            .put("card", BenchHtml.card(state))
            .put("said", BenchHtml.said(state))
            .put("tone", BenchHtml.tone(state))
            .put("today", BenchHtml.today(state.today()))
            .put("jig", state.jig().words())
            .put("jig_answers", state.jig().answers())
            .put("operator", state.operator().orElse(""))
            .put("job", state.job().map(BenchState.Job::code).orElse(""));
    var jobs = node.putArray("jobs");
    state.jobs().forEach(job -> jobs.add(job.code()));
    virtual.ifPresent(
        boxes -> {
          var names = node.putArray("virtual_boxes");
          boxes.names().forEach(names::add);
          node.put("virtual_box", boxes.now());
        });
    return node.toString();
  }

  @Override
  public void close() {
    stream.close();
    web.stop();
  }
}
