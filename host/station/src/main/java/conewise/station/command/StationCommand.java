package conewise.station.command;

import conewise.analysis.diagnosis.Rates;
import conewise.jig.client.JigClient;
import conewise.jig.sweep.SweepKind;
import conewise.protocol.JigIdentity;
import conewise.simulator.world.DemoWorld;
import conewise.station.answer.CommandFailure;
import conewise.station.answer.ExitCode;
import conewise.station.answer.ProgressLine;
import conewise.station.answer.Screen;
import conewise.station.calibrating.ShopRule;
import conewise.station.desk.Desk;
import conewise.station.files.BadFileException;
import conewise.station.fixture.ShiftChallenge;
import conewise.station.measuring.JigChoice;
import conewise.station.measuring.StopRequest;
import conewise.station.page.StationServer;
import conewise.station.records.RecordsException;
import conewise.station.records.store.RecordPlace;
import conewise.station.records.store.RecordStore;
import conewise.station.shift.Bench;
import conewise.station.shift.JigSource;
import conewise.station.shift.JobShelf;
import conewise.station.shift.RecordKeeper;
import conewise.station.shift.VirtualSource;
import io.javalin.util.JavalinException;
import java.net.InetAddress;
import java.net.UnknownHostException;
import java.nio.file.Path;
import java.security.SecureRandom;
import java.time.Clock;
import java.time.Instant;
import java.time.ZoneId;
import java.time.ZonedDateTime;
import java.util.Arrays;
import java.util.HexFormat;
import java.util.List;
import java.util.Optional;
import java.util.concurrent.Callable;
import picocli.CommandLine.Command;
import picocli.CommandLine.Mixin;
import picocli.CommandLine.Option;
import picocli.CommandLine.ParentCommand;

/** {@code station}: the bench's page, for a whole shift. */
@Command(
    name = "station",
    mixinStandardHelpOptions = true,
    description = {
      "Serves the job-card page on this machine: scan a box, measure it, see its verdict.",
      "Ends with Ctrl-C."
    },
    footer = "Take every box off its amplifier before it meets the jig.")
final class StationCommand implements Callable<Integer> {
  private static final int TOKEN_BYTES = 16;
  private static final long REST_MILLIS = 200;

  @ParentCommand private RootCommand root;

  @Mixin private JigOptions jig;

  @Mixin private SweepOptions sweep;

  @Mixin private CalibrationOptions calibration;

  @Mixin private ShopRuleOptions shop;

  @Mixin private SteadyFixtureOption steadyFixture;

  @Mixin private ChallengeOptions shift;

  @Mixin private RatesOption rates;

  @Option(
      names = "--plans",
      paramLabel = "DIR",
      description = "The folder of the jobs' plans. Without it: those that come along.")
  private Optional<Path> plans = Optional.empty();

  @Option(
      names = "--records",
      paramLabel = "FILE|URL",
      description =
          "Where results are kept: a file, or jdbc:postgresql://host/database where several benches"
              + " share one. Default: conewise-results/records.db.")
  private Optional<String> records = Optional.empty();

  @Option(
      names = "--bench",
      paramLabel = "NAME",
      defaultValue = "bench",
      description = "This bench's name in the records (default: ${DEFAULT-VALUE}).")
  private String name;

  @Option(
      names = "--listen",
      paramLabel = "ADDRESS",
      defaultValue = "127.0.0.1",
      description =
          "The address of this machine to serve on (default ${DEFAULT-VALUE}: this machine alone)."
              + " Elsewhere the page asks for a token, which is printed.")
  private String listen;

  @Option(
      names = "--http-port",
      paramLabel = "N",
      defaultValue = "8337",
      description = "The port of the page; 0 for any free one (default ${DEFAULT-VALUE}).")
  private int port;

  @Override
  public Integer call() throws CommandFailure {
    if (port < 0 || port > 65535) {
      throw new CommandFailure(
          ExitCode.USAGE, "--http-port is " + port + "; it must be 0 to 65535.");
    }
    JobShelf jobs = jobs();
    Rates met = rates.read();
    CalibrationOptions.Asked asked = calibration.read();
    ShopRule rule = shop.read();
    Screen screen = root.screen();
    ProgressLine silent = ProgressLine.silent(screen);
    SteadyFixtureOption.Rule steady = steadyFixture.rule(calibration.shelf());
    JigSource real = new ChosenJig(jig.choice(), asked, rule, steady, silent);
    Optional<ShiftChallenge> challenge = shift.challenge();
    Optional<VirtualSource> virtual = Optional.empty();
    if (jig.virtual().isPresent()) {
      virtual = Optional.of(new VirtualSource(jig.virtual().get(), real, silent));
    }
    Bench.Setting setting =
        new Bench.Setting(
            sweep.kind() == SweepKind.THOROUGH, met, name, RootCommand.Version.text());
    Optional<String> token = isLoopback() ? Optional.empty() : Optional.of(token());
    RecordPlace place =
        records.map(RecordPlace::of).orElse(new RecordPlace.OfFile(RecordPlace.USUAL_FILE));
    try (StopRequest stop = StopRequest.listen();
        RecordStore store = RecordStore.open(place);
        Bench bench =
            new Bench(
                jobs,
                virtual.<JigSource>map(each -> each).orElse(real),
                new RecordKeeper(store),
                setting,
                Clock.system(ZoneId.systemDefault()),
                shift.known(challenge, store, name, Instant.now()));
        StationServer server =
            new StationServer(
                bench,
                new StationServer.Place(listen, port, token),
                virtual.map(VirtualBoxes::new),
                new Desk(Optional.of(store), Clock.system(ZoneId.systemDefault())))) {
      screen.out().println("The bench's page: " + address(server.port(), token));
      screen.out().println("Results are kept in " + place.shown() + ". Ctrl-C ends the shift.");
      while (!stop.asked()) {
        Thread.sleep(REST_MILLIS);
      }
    } catch (RecordsException failed) {
      throw new CommandFailure(ExitCode.CANNOT_WRITE, failed.getMessage(), failed);
    } catch (JavalinException taken) {
      throw new CommandFailure(
          ExitCode.NOT_JUDGED,
          "Port "
              + port
              + " of "
              + listen
              + " cannot be served; another program may have it. Choose another by --http-port.",
          taken);
    } catch (InterruptedException ended) {
      Thread.currentThread().interrupt();
    }
    return ExitCode.PASS.number();
  }

  private JobShelf jobs() throws CommandFailure {
    try {
      return plans.isPresent() ? JobShelf.in(plans.get()) : JobShelf.bundled();
    } catch (BadFileException bad) {
      throw new CommandFailure(ExitCode.BAD_DATA, bad.getMessage(), bad);
    }
  }

  private boolean isLoopback() throws CommandFailure {
    try {
      return InetAddress.getByName(listen).isLoopbackAddress();
    } catch (UnknownHostException unknown) {
      throw new CommandFailure(
          ExitCode.USAGE, "--listen names no address of this machine: " + listen + ".", unknown);
    }
  }

  private static String token() {
    byte[] bytes = new byte[TOKEN_BYTES];
    new SecureRandom().nextBytes(bytes);
    return HexFormat.of().formatHex(bytes);
  }

  private String address(int served, Optional<String> token) {
    return "http://" + listen + ":" + served + "/" + token.map(each -> "?token=" + each).orElse("");
  }

  /** The jig that the command line names. */
  private record ChosenJig(
      JigChoice choice,
      CalibrationOptions.Asked asked,
      ShopRule rule,
      SteadyFixtureOption.Rule steady,
      ProgressLine silent)
      implements JigSource {
    @Override
    public JigClient connect() throws CommandFailure {
      return choice.connect(silent);
    }

    @Override
    public Calibrated calibrated(JigIdentity identity, ZonedDateTime now) throws CommandFailure {
      CalibrationOptions.Chosen chosen = asked.on(identity, rule, now);
      return new Calibrated(
          chosen.settings(),
          chosen.words(),
          verdict -> steady.hold(identity, chosen.hold(verdict)),
          chosen.due());
    }
  }

  /** The built-in boxes of a virtual jig, for the page to choose from. */
  private record VirtualBoxes(VirtualSource source) implements StationServer.VirtualBox {
    @Override
    public List<String> names() {
      return Arrays.stream(DemoWorld.values()).map(DemoWorld::worldName).toList();
    }

    @Override
    public String now() {
      return source.now();
    }

    @Override
    public void put(String name) {
      try {
        source.put(name);
      } catch (CommandFailure unknown) {
        throw new IllegalArgumentException(unknown.getMessage(), unknown);
      }
    }
  }
}
