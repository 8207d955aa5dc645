package conewise.station.page;

import conewise.analysis.diagnosis.Rates;
import conewise.jig.client.JigClient;
import conewise.protocol.JigIdentity;
import conewise.station.answer.CommandFailure;
import conewise.station.answer.ProgressLine;
import conewise.station.answer.Screen;
import conewise.station.records.store.RecordPlace;
import conewise.station.records.store.RecordStore;
import conewise.station.shift.Bench;
import conewise.station.shift.JigSource;
import conewise.station.shift.JobShelf;
import conewise.station.shift.RecordKeeper;
import conewise.station.shift.VirtualSource;
import java.io.ByteArrayOutputStream;
import java.io.File;
import java.io.PrintStream;
import java.nio.charset.StandardCharsets;
import java.nio.file.Files;
import java.nio.file.Path;
import java.time.Clock;
import java.time.Duration;
import java.time.ZonedDateTime;
import java.util.Arrays;
import java.util.List;
import java.util.Optional;
import org.openqa.selenium.By;
import org.openqa.selenium.OutputType;
import org.openqa.selenium.chrome.ChromeDriver;
import org.openqa.selenium.chrome.ChromeDriverService;
import org.openqa.selenium.chrome.ChromeOptions;
import org.openqa.selenium.support.ui.WebDriverWait;

/** A bench on the virtual jig with a real browser before it. */
final class BrowserAtTheBench implements AutoCloseable {
  static final String DRIVER = "/usr/bin/chromedriver";
  static final String BROWSER = "/usr/bin/chromium";
  private static final Duration PATIENCE = Duration.ofSeconds(40);
  private static final Path PICTURES = Path.of("target", "screenshots");

  final VirtualSource jig;
  final RecordStore store;
  final Bench bench;
  final StationServer server;
  final ChromeDriver browser;

  BrowserAtTheBench(Path shelf, int width, int height) throws Exception {
    PrintStream nowhere =
        new PrintStream(new ByteArrayOutputStream(), true, StandardCharsets.UTF_8);
    ProgressLine silent = ProgressLine.silent(new Screen(nowhere, nowhere, false, false, false));
    jig = new VirtualSource("heron", new Uncalibrated(), silent);
    store = RecordStore.open(new RecordPlace.OfFile(shelf.resolve("records.db")));
    bench =
        new Bench(
            JobShelf.bundled(),
            jig,
            new RecordKeeper(store),
            new Bench.Setting(false, Rates.USUAL, "bench", "of the test"),
            Clock.systemUTC());
    server =
        new StationServer(
            bench,
            new StationServer.Place("127.0.0.1", 0, Optional.empty()),
            Optional.of(new Boxes()));
    ChromeOptions options = new ChromeOptions();
    options.setBinary(BROWSER);
    options.addArguments(
        "--headless=new",
        "--no-sandbox",
        "--disable-gpu",
        "--disable-dev-shm-usage",
        "--hide-scrollbars",
        "--window-size=" + width + "," + height);
    browser =
        new ChromeDriver(
            new ChromeDriverService.Builder()
                .usingDriverExecutable(new File(DRIVER))
                .usingAnyFreePort()
                .build(),
            options);
    browser.get("http://127.0.0.1:" + server.port() + "/");
    waitFor("#card h1", "");
  }

  private static final class Uncalibrated implements JigSource {
    @Override
    public JigClient connect() throws CommandFailure {
      throw new UnsupportedOperationException("the virtual source connects by itself");
    }

    @Override
    public Calibrated calibrated(JigIdentity identity, ZonedDateTime now) {
      return Calibrated.none();
    }
  }

  private final class Boxes implements StationServer.VirtualBox {
    @Override
    public List<String> names() {
      return Arrays.asList("heron", "heron-driver-reversed", "wren");
    }

    @Override
    public String now() {
      return jig.now();
    }

    @Override
    public void put(String name) {
      try {
        jig.put(name);
      } catch (CommandFailure unknown) {
        throw new IllegalArgumentException(unknown);
      }
    }
  }

  /** Puts another box on the virtual jig, as a person does on a real one. */
  void put(String box) throws CommandFailure {
    jig.put(box);
    bench.meetJigAgain();
  }

  /** Types into whatever has the focus. */
  void type(CharSequence... keys) {
    browser.switchTo().activeElement().sendKeys(keys);
  }

  /** Waits until an element's text holds something. */
  String waitFor(String selector, String text) {
    return new WebDriverWait(browser, PATIENCE)
        .withMessage(() -> selector + " with \"" + text + "\"; the card says: " + card())
        .until(
            b -> {
              var all = browser.findElements(By.cssSelector(selector));
              try {
                return all.stream()
                    .map(each -> each.getText())
                    .filter(each -> each.contains(text))
                    .findFirst()
                    .orElse(null);
              } catch (org.openqa.selenium.StaleElementReferenceException renewed) {
                return null;
              }
            });
  }

  String card() {
    return String.valueOf(
        browser.executeScript("return document.getElementById('card').innerText"));
  }

  /** Keeps a picture among the tests' artefacts. */
  void picture(String name) throws Exception {
    Files.createDirectories(PICTURES);
    Files.write(PICTURES.resolve(name + ".png"), browser.getScreenshotAs(OutputType.BYTES));
  }

  /** What the accessibility rules of WCAG 2.1 A and AA (by axe-core) find wrong, a line each. */
  List<String> inaccessible() throws Exception {
    try (var rules = getClass().getResourceAsStream("/axe.min.js")) {
      browser.executeScript(new String(rules.readAllBytes(), StandardCharsets.UTF_8));
    }
    Object found =
        browser.executeAsyncScript(
            "const done = arguments[arguments.length - 1];"
                + "axe.run(document, {runOnly: ['wcag2a', 'wcag2aa', 'wcag21a', 'wcag21aa']})"
                + ".then(r => done(r.violations.map(v => v.id + ': ' + v.help + ' '"
                + " + v.nodes.map(n => n.html).join(' | ').slice(0, 300))));");
    return ((List<?>) found).stream().map(String::valueOf).toList();
  }

  @Override
  public void close() {
    browser.quit();
    server.close();
    bench.close();
    store.close();
  }
}
