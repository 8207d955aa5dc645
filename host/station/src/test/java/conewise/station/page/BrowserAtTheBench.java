package conewise.station.page;

import static org.junit.jupiter.api.Assertions.assertEquals;
import static org.junit.jupiter.api.Assertions.assertTrue;

import conewise.analysis.diagnosis.Rates;
import conewise.simulator.world.DemoWorld;
import conewise.station.desk.Desk;
import conewise.station.fixture.Challenge;
import conewise.station.fixture.ShiftChallenge;
import conewise.station.records.BoxRun;
import conewise.station.records.Overruling;
import conewise.station.records.store.RecordPlace;
import conewise.station.records.store.RecordStore;
import conewise.station.shift.Bench;
import conewise.station.shift.BenchClock;
import conewise.station.shift.JobShelf;
import conewise.station.shift.Keeper;
import conewise.station.shift.KeepingException;
import conewise.station.shift.Phase;
import conewise.station.shift.PluggedJig;
import conewise.station.shift.RecordKeeper;
import java.io.File;
import java.nio.charset.StandardCharsets;
import java.nio.file.Files;
import java.nio.file.Path;
import java.time.Clock;
import java.time.Duration;
import java.util.ArrayList;
import java.util.Arrays;
import java.util.Base64;
import java.util.List;
import java.util.Locale;
import java.util.Map;
import java.util.Optional;
import java.util.concurrent.CountDownLatch;
import java.util.concurrent.TimeUnit;
import java.util.function.Supplier;
import java.util.regex.Matcher;
import java.util.regex.Pattern;
import org.openqa.selenium.By;
import org.openqa.selenium.Keys;
import org.openqa.selenium.OutputType;
import org.openqa.selenium.WindowType;
import org.openqa.selenium.chrome.ChromeDriver;
import org.openqa.selenium.chrome.ChromeDriverService;
import org.openqa.selenium.chrome.ChromeOptions;
import org.openqa.selenium.support.ui.WebDriverWait;

/** A bench on the virtual jig with a real browser before it. */
final class BrowserAtTheBench implements AutoCloseable {
  static final String DRIVER = "/usr/bin/chromedriver";
  static final String BROWSER = "/usr/bin/chromium";
  private static final Duration PATIENCE = Duration.ofSeconds(40);
  private static final int[][] SIZES = {{1280, 720}, {1024, 768}, {768, 1024}};

  /** In points, the unit of a PDF (ISO 32000-1, 7.7.3.3): 1/72 inch. */
  private static final Pattern PAPER = Pattern.compile("/MediaBox \\[0 0 ([0-9.]+) ([0-9.]+)\\]");

  private static final double POINTS_PER_CM = 72 / 2.54;
  private static final Path PICTURES = Path.of("target", "screenshots");

  final BenchClock clock = new BenchClock();
  final PluggedJig jig = new PluggedJig();
  final RecordStore store;
  volatile boolean diskFull;
  final Bench bench;
  final StationServer server;
  final ChromeDriver browser;

  BrowserAtTheBench(Path shelf, int width, int height) throws Exception {
    this(shelf, width, height, false, Optional.empty());
  }

  /** A bench that sweeps tone by tone, where wished, and may ask for a challenge. */
  BrowserAtTheBench(
      Path shelf, int width, int height, boolean thorough, Optional<Challenge> challenge)
      throws Exception {
    store = RecordStore.open(new RecordPlace.OfFile(shelf.resolve("records.db")));
    bench =
        new Bench(
            JobShelf.bundled(),
            jig,
            new FullDisk(new RecordKeeper(store)),
            new Bench.Setting(thorough, Rates.USUAL, "bench", "of the test"),
            clock,
            challenge.map(each -> new ShiftChallenge(each, ShiftChallenge.USUAL)));
    server =
        new StationServer(
            bench,
            new StationServer.Place("127.0.0.1", 0, Optional.empty()),
            Optional.of(new Boxes()),
            new Desk(Optional.of(store), Clock.systemUTC()));
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

  /** Refuses to keep anything while the disk is full. */
  private final class FullDisk implements Keeper {
    private final Keeper store;

    FullDisk(Keeper store) {
      this.store = store;
    }

    @Override
    public Kept keep(BoxRun run) throws KeepingException {
      if (diskFull) {
        throw new KeepingException("no space is left on the disk", null);
      }
      return store.keep(run);
    }

    @Override
    public List<Overruling> overrulings(Kept kept) throws KeepingException {
      if (diskFull) {
        throw new KeepingException("the disk does not answer", null);
      }
      return store.overrulings(kept);
    }

    @Override
    public void further(Further more) throws KeepingException {
      store.further(more);
    }
  }

  private final class Boxes implements StationServer.VirtualBox {
    private volatile String now = "heron";

    @Override
    public List<String> names() {
      return Arrays.stream(DemoWorld.values()).map(DemoWorld::worldName).toList();
    }

    @Override
    public String now() {
      return now;
    }

    @Override
    public void put(String name) {
      now = name;
      jig.put(DemoWorld.valueOf(name.toUpperCase(Locale.ROOT).replace('-', '_')));
    }
  }

  /** Puts another box on the virtual jig, as a person does on a real one. */
  void put(DemoWorld box) {
    jig.put(box);
    bench.meetJigAgain();
  }

  /** Scans and measures by what a scanner and the Enter key type. */
  void measured(String serial) {
    type(serial, Keys.ENTER);
    waitFor("#card .now", "Clip on");
    waitFor("#card h1", serial);
    type(Keys.ENTER);
  }

  /** Holds the next sweep up when it has come so far, until the answer is run. */
  Runnable held(double fraction) {
    CountDownLatch hold = new CountDownLatch(1);
    Runnable off =
        bench.watch(
            state -> {
              if (state.phase() == Phase.MEASURING
                  && state.box().orElseThrow().fraction() >= fraction) {
                try {
                  hold.await(PATIENCE.toSeconds(), TimeUnit.SECONDS);
                } catch (InterruptedException ended) {
                  Thread.currentThread().interrupt();
                }
              }
            });
    return () -> {
      off.run();
      hold.countDown();
    };
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

  /** Waits until something is there. */
  <T> T waitUntil(String what, Supplier<T> there) {
    return new WebDriverWait(browser, PATIENCE)
        .withMessage(() -> what + "; the card says: " + card())
        .until(b -> there.get());
  }

  /** Another size of the screen, as of a tablet. */
  void size(int width, int height) {
    browser.executeCdpCommand(
        "Emulation.setDeviceMetricsOverride",
        Map.of("width", width, "height", height, "deviceScaleFactor", 1, "mobile", false));
  }

  /** Keeps pictures of all sizes, and answers what is cut off or too small to touch in gloves. */
  List<String> looked(String name) throws Exception {
    List<String> wrong = new ArrayList<>();
    for (int[] size : SIZES) {
      size(size[0], size[1]);
      String at = size[0] + "x" + size[1];
      misplaced().forEach(each -> wrong.add(at + ": " + each));
      picture(name + "-" + at);
    }
    size(SIZES[0][0], SIZES[0][1]);
    return wrong;
  }

  private List<String> misplaced() {
    Object found =
        browser.executeScript(
            "const wrong = [];const wide = document.documentElement.clientWidth;if"
                + " (document.documentElement.scrollWidth > wide) wrong.push('page is too"
                + " wide');for (const e of"
                + " document.querySelectorAll('button,select,input,summary,a,h1,p,td,figure,.word,.sign'))"
                + " {  const r = e.getBoundingClientRect();  if (!r.width || e.closest('.aside') ||"
                + " e.closest('.today')) continue;  const what = e.tagName + ' ' +"
                + " e.textContent.slice(0, 40);  if (r.left < -1 || r.right > wide + 1)"
                + " wrong.push('cut off: ' + what);  if (e.matches('button,select,input,summary,a')"
                + " && (r.height < 44 || r.width < 44)) wrong.push('too small to touch: ' + what +"
                + " ' ' + r.width + 'x' + r.height);}return wrong;");
    return ((List<?>) found).stream().map(String::valueOf).toList();
  }

  /** A page's whole address. */
  String address(String path) {
    return "http://127.0.0.1:" + server.port() + path;
  }

  /** Prints a page of the station, or any other, as the browser's own print order does. */
  private String printed(String path, double widthCm, double heightCm) {
    String here = browser.getWindowHandle();
    browser.switchTo().newWindow(WindowType.TAB);
    browser.get(path.startsWith("/") ? address(path) : path);
    Object pdf =
        browser
            .executeCdpCommand(
                "Page.printToPDF",
                Map.of(
                    "paperWidth",
                    widthCm / 2.54,
                    "paperHeight",
                    heightCm / 2.54,
                    "printBackground",
                    true,
                    "preferCSSPageSize",
                    true))
            .get("data");
    browser.close();
    browser.switchTo().window(here);
    return new String(Base64.getDecoder().decode(String.valueOf(pdf)), StandardCharsets.ISO_8859_1);
  }

  /** Prints on paper of a size, and holds the print to one page of it. */
  void printsOnOnePage(String path, double widthCm, double heightCm) {
    printsOnOnePage(path, widthCm, heightCm, widthCm, heightCm);
  }

  /** The same where the page asks for a size of its own. */
  void printsOnOnePage(
      String path, double widthCm, double heightCm, double ownWidthCm, double ownHeightCm) {
    String pdf = printed(path, widthCm, heightCm);
    long pages = Pattern.compile("/Type\\s*/Page\\b").matcher(pdf).results().count();
    assertEquals(1, pages, "pages of " + ownWidthCm + " by " + ownHeightCm + " cm");
    Matcher paper = PAPER.matcher(pdf);
    assertTrue(paper.find(), "no size of paper is stated");
    assertEquals(ownWidthCm * POINTS_PER_CM, Double.parseDouble(paper.group(1)), 1);
    assertEquals(ownHeightCm * POINTS_PER_CM, Double.parseDouble(paper.group(2)), 1);
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
