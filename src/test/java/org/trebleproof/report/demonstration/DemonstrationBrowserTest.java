package org.trebleproof.report.demonstration;

import static org.junit.jupiter.api.Assertions.assertEquals;
import static org.junit.jupiter.api.Assertions.assertFalse;
import static org.junit.jupiter.api.Assertions.assertTrue;

import java.io.IOException;
import java.nio.file.Files;
import java.nio.file.Path;
import java.util.ArrayList;
import java.util.Arrays;
import java.util.List;
import java.util.Map;
import java.util.Optional;
import java.util.Random;
import java.util.concurrent.TimeUnit;
import java.util.stream.Stream;
import org.junit.jupiter.api.AfterAll;
import org.junit.jupiter.api.AfterEach;
import org.junit.jupiter.api.BeforeAll;
import org.junit.jupiter.api.Tag;
import org.junit.jupiter.api.Test;
import org.junit.jupiter.api.io.TempDir;
import org.openqa.selenium.By;
import org.openqa.selenium.Keys;
import org.openqa.selenium.WebElement;
import org.trebleproof.audio.SoundFile;
import org.trebleproof.audio.WavWriter;
import org.trebleproof.bench.FitJob;
import org.trebleproof.bench.job.Job;
import org.trebleproof.bench.job.JobReader;
import org.trebleproof.bench.mod.guitar.SignalChain;
import org.trebleproof.bench.mod.guitar.TypedGuitars;
import org.trebleproof.bench.mod.listen.Rendering;
import org.trebleproof.bench.mod.predict.Prediction;
import org.trebleproof.bench.mod.predict.Predictor;
import org.trebleproof.bench.model.FittedParts;
import org.trebleproof.circuit.CoilModel;

/** The page that is heard and turned, in a real browser, held against the program's own answers. */
@Tag("browser")
class DemonstrationBrowserTest {
  private static final String WIRING =
      "volume=250k,tone=250k,toneCapacitor=22n,cable=500p,input=1M";
  private static final double[] HZ = logarithmic(20, 19000, 90);

  /**
   * The page's arithmetic is the program's in another language; only a wiper's end differs, whose
   * 0.01 ohm make up to 0.00002 dB. A hundredth of what is promised.
   */
  private static final double SAME = 1e-4;

  private static final int RATE = 48000;

  private static PageInBrowser browser;
  private static Demonstrated measured;

  @TempDir static Path folder;

  @BeforeAll
  static void open() {
    browser = new PageInBrowser();
    Job job = JobReader.read(Path.of("sample-captures/pot-swap/job.json"));
    List<FittedParts> kept = new ArrayList<>();
    new FitJob().run(job, kept::add);
    SignalChain chain = SignalChain.of(kept.get(0), List.of());
    measured =
        new Demonstrated(
            chain, chain.layout(Optional.of("before")), chain.layout(Optional.of("after")));
  }

  @AfterAll
  static void close() {
    browser.close();
  }

  /** A strict policy makes the browser complain of whatever the page should not do. */
  @AfterEach
  void quietAndAlone() {
    assertEquals(List.of(), browser.complaints(), "the browser's console");
    assertEquals(List.of(), browser.requests(), "requests that leave the disk");
  }

  private record Turn(String key, double value, String changes) {}

  @Test
  void everySliderDrawsAndSoundsAsTheProgramPredicts() throws Exception {
    browser.open(folder, measured.page());
    same("", "as it was");
    List<Turn> turns = new ArrayList<>();
    turns.add(new Turn("volume", stop("volume", "1M"), "volume=1M"));
    turns.add(new Turn("volumeRotation", 7, "volumeRotation=0.7"));
    turns.add(new Turn("tone", stop("tone", "500k"), "tone=500k"));
    turns.add(new Turn("toneRotation", 2.5, "toneRotation=0.25"));
    turns.add(new Turn("toneCapacitor", stop("toneCapacitor", "47n"), "toneCapacitor=47n"));
    turns.add(new Turn("bleed", stop("bleed", "680p"), "bleedCapacitor=680p"));
    turns.add(
        new Turn(
            "bleed",
            stop("bleed", "1n, 150k across it"),
            "bleedCapacitor=1n,bleedResistor=150k,bleedStyle=parallel"));
    turns.add(
        new Turn(
            "bleed",
            stop("bleed", "1n and 150k in series"),
            "bleedCapacitor=1n,bleedResistor=150k,bleedStyle=series"));
    turns.add(new Turn("cable", stop("cable", "9 m (900p)"), "cable=900p"));
    turns.add(new Turn("input", stop("input", "470k"), "input=470k"));
    turns.add(new Turn("toneRotation", 0, "toneRotation=0"));
    turns.add(new Turn("input", stop("input", "nothing plugged in"), "input=none"));
    turns.add(new Turn("cable", stop("cable", "no lead"), "cable=none"));
    String changes = "";
    for (Turn turn : turns) {
      browser.move(turn.key(), turn.value());
      changes = merged(changes, turn.changes());
      same(changes, turn.key() + " " + turn.changes());
      drawn(changes);
      heard(changes);
    }
  }

  /** Later changes of a key take the place of earlier ones. */
  private static String merged(String changes, String more) {
    List<String> all = new ArrayList<>();
    List<String> keys = Arrays.stream(more.split(",")).map(c -> c.split("=")[0]).toList();
    for (String change : changes.isEmpty() ? new String[0] : changes.split(",")) {
      if (!keys.contains(change.split("=")[0])) {
        all.add(change);
      }
    }
    all.addAll(List.of(more.split(",")));
    return String.join(",", all);
  }

  private static void same(String changes, String why) {
    double[] page =
        browser.numbers("return demonstration.levels('after', arguments[0]);", list(HZ));
    double[] program = measured.predicted(changes, HZ);
    double worst = 0;
    for (int i = 0; i < HZ.length; i++) {
      worst = Math.max(worst, Math.abs(page[i] - program[i]));
    }
    System.out.printf("browser: %s: %.2g dB%n", why, worst);
    assertTrue(worst < SAME, why + ": " + worst + " dB");
  }

  /** The drawn line, read off its pixels: a pixel is about 0.1 dB. */
  private static void drawn(String changes) {
    String path =
        (String)
            browser.js(
                "return document.querySelector('#levels path.line.after').getAttribute('d');");
    double[] frame =
        browser.numbers(
            "const f = document.querySelector('#levels rect.frame');"
                + "return ['x', 'y', 'width', 'height'].map((a) => Number(f.getAttribute(a)));");
    double[] marks =
        browser.numbers(
            "const t = [...document.querySelectorAll('#levels text.tick.end')];"
                + "const of = (e) => [Number(e.getAttribute('y')) - 4,"
                + " Number(e.textContent.replace('\\u2212', '-').replace(' dB', ''))];"
                + "return of(t[0]).concat(of(t[t.length - 1]));");
    double[][] points =
        Arrays.stream(path.substring(1).split("[ML]"))
            .map(p -> Arrays.stream(p.split(" ")).mapToDouble(Double::parseDouble).toArray())
            .toArray(double[][]::new);
    double[] hz =
        Arrays.stream(points)
            .mapToDouble(p -> 80 * Math.pow(14000.0 / 80, (p[0] - frame[0]) / frame[2]))
            .toArray();
    double[] program = measured.predicted(changes, hz);
    for (int i = 0; i < hz.length; i++) {
      double read =
          marks[1] + (points[i][1] - marks[0]) * (marks[3] - marks[1]) / (marks[2] - marks[0]);
      assertEquals(program[i], read, 0.06, changes + " drawn at " + hz[i]);
    }
  }

  /** The sound's spectrum over an impulse's, both relative to 500 Hz. */
  private static void heard(String changes) {
    double[] impulse = new double[8192];
    impulse[0] = 0.001;
    double[] response =
        browser.numbersLater(
            "demonstration.rendered('after', arguments[0], arguments[1])", list(impulse), RATE);
    double[] hz = logarithmic(80, 12000, 40);
    double[] program = measured.predicted(changes, hz);
    double[] reference = measured.predicted(changes, new double[] {500});
    double there = level(response, 500);
    for (int i = 0; i < hz.length; i++) {
      // A filter of 4096 samples smooths what lies within 12 Hz.
      assertEquals(
          program[i] - reference[0],
          level(response, hz[i]) - there,
          0.05,
          changes + " heard at " + hz[i]);
    }
  }

  private static double level(double[] samples, double hz) {
    double re = 0;
    double im = 0;
    for (int i = 0; i < samples.length; i++) {
      re += samples[i] * Math.cos(2 * Math.PI * hz * i / RATE);
      im -= samples[i] * Math.sin(2 * Math.PI * hz * i / RATE);
    }
    return 20 * Math.log10(Math.hypot(re, im));
  }

  @Test
  void everyWiringAndCoilModelAgrees() throws Exception {
    SignalChain single = TypedGuitars.single(WIRING);
    List<CoilModel> coils =
        CoilModel.all().stream()
            .flatMap(
                m ->
                    m.dielectricLoss()
                        ? Stream.of(m, m.withConstantPhase().withDepartures())
                        : Stream.of(m))
            .toList();
    for (CoilModel coil : coils) {
      agrees(
          Demonstrated.changed(
              Demonstrated.withCoil(single, coil), "volumeRotation=0.6,toneRotation=0.4"),
          coil.label());
    }
    SignalChain three = TypedGuitars.threePickups(WIRING);
    for (String wiring :
        List.of(
            "pickups=pickup+neck",
            "pickups=pickup+neck,joint=series,phase=out,output=0.8",
            "pickups=pickup+neck+middle,selector=4,volumeRotation=0.7",
            "pickups=pickup+neck,secondVolume=250k,secondVolumeRotation=0.5,secondTone=250k,"
                + "secondToneCapacitor=22n,volumeWiring=independent,volumeRotation=0.8",
            "bassCapacitor=2.2n,bassPot=1M,bassPotRotation=0.5,loadCapacitor=220p",
            "tonePosition=after,volumeRotation=0.5,volumeCentre=0.15",
            "tap=on,tapResistor=4.7k,volumeRotation=0.5,bleedCapacitor=1.2n,bleedResistor=130k")) {
      agrees(Demonstrated.changed(three, wiring), wiring);
    }
  }

  private static void agrees(Demonstrated guitar, String why) throws Exception {
    browser.open(folder, guitar.page());
    double[] page =
        browser.numbers("return demonstration.levels('after', arguments[0]);", list(HZ));
    double[] program = guitar.predicted("", HZ);
    double worst = 0;
    for (int i = 0; i < HZ.length; i++) {
      worst = Math.max(worst, Math.abs(page[i] - program[i]));
    }
    double simulator = simulated(guitar);
    System.out.printf("browser: %s: %.2g dB, ngspice %.2g dB%n", why, worst, simulator);
    assertTrue(worst < SAME, why + ": " + worst + " dB");
    assertTrue(simulator < SAME, why + ": " + simulator + " dB from ngspice");
  }

  /** The page against ngspice, which has the netlist from the program [dB]. */
  private static double simulated(Demonstrated guitar) throws IOException, InterruptedException {
    Predictor predictor = new Predictor(guitar.chain(), guitar.before(), guitar.after(), 1);
    Files.writeString(
        folder.resolve("then.cir"), predictor.deck().text("predicted", "answer.data"));
    Process process =
        new ProcessBuilder("ngspice", "-b", "then.cir")
            .directory(folder.toFile())
            .redirectErrorStream(true)
            .redirectOutput(folder.resolve("log").toFile())
            .start();
    assertTrue(process.waitFor(60, TimeUnit.SECONDS));
    List<double[]> rows =
        Files.readAllLines(folder.resolve("answer.data")).stream()
            .map(
                l ->
                    Arrays.stream(l.trim().split("\\s+"))
                        .mapToDouble(Double::parseDouble)
                        .toArray())
            .toList();
    double[] page =
        browser.numbers(
            "return demonstration.levels('after', arguments[0]);",
            list(rows.stream().mapToDouble(r -> r[0]).toArray()));
    double worst = 0;
    for (int i = 0; i < page.length; i++) {
      double there = 20 * Math.log10(Math.hypot(rows.get(i)[1], rows.get(i)[2]));
      worst = Math.max(worst, Math.abs(page[i] - there));
    }
    return worst;
  }

  @Test
  void aSecondPickupIsPickedFromAList() throws Exception {
    SignalChain chain = TypedGuitars.single(WIRING);
    Demonstrated guitar = Demonstrated.changed(chain, "volume=500k");
    browser.open(folder, guitar.page());
    browser.move("wiring", stop("wiring", "pickup and neck in series"));
    double[] page =
        browser.numbers("return demonstration.levels('after', arguments[0]);", list(HZ));
    double[] program = guitar.predicted("pickups=pickup+neck,joint=series", HZ);
    for (int i = 0; i < HZ.length; i++) {
      assertEquals(program[i], page[i], SAME, HZ[i] + " Hz");
    }
    browser.await("document.getElementById('verdict').textContent.includes('in series')");
  }

  @Test
  void theBandIsTheMeasurements() throws Exception {
    band(TypedGuitars.single(WIRING), "volume=500k,tone=500k");
  }

  /** What several coil models disagree on is part of the band. */
  @Test
  void rivalsAreInTheBand() throws Exception {
    SignalChain single = TypedGuitars.single(WIRING);
    SignalChain rival =
        weighted(Demonstrated.withCoil(single, CoilModel.SPLIT_INDUCTANCE), 0.4, List.of());
    band(
        weighted(Demonstrated.withCoil(single, CoilModel.SOLID_CORE), 0.6, List.of(rival)),
        "volume=500k");
  }

  private static SignalChain weighted(SignalChain chain, double weight, List<SignalChain> rivals) {
    return new SignalChain(
        chain.title(),
        chain.coils(),
        chain.knowledge(),
        chain.slots(),
        chain.layouts(),
        chain.current(),
        Map.of(),
        List.of(),
        weight,
        rivals,
        Map.of());
  }

  private static void band(SignalChain chain, String changes) throws Exception {
    Demonstrated guitar = Demonstrated.changed(chain, changes);
    Prediction prediction =
        new Predictor(guitar.chain(), guitar.before(), guitar.after(), 4000).predict();
    browser.open(folder, guitar.page());
    browser.await("demonstration.band('difference')");
    // The grid is the program's, from its 41st frequency to its 190th.
    double[] low = browser.numbers("return Array.from(demonstration.band('difference').low);");
    double[] high = browser.numbers("return Array.from(demonstration.band('difference').high);");
    double widest = 0;
    for (int i = 0; i < low.length; i++) {
      double width = prediction.change().high()[40 + i] - prediction.change().low()[40 + i];
      widest = Math.max(widest, width);
    }
    assertTrue(widest > 1, "a band that can be seen: " + widest);
    for (int i = 0; i < low.length; i++) {
      double width = prediction.change().high()[40 + i] - prediction.change().low()[40 + i];
      // Ends of 200 draws scatter by a tenth of the width (binomial), twice that is rare.
      assertEquals(prediction.change().low()[40 + i], low[i], 0.2 * width + 0.02, "low " + i);
      assertEquals(prediction.change().high()[40 + i], high[i], 0.2 * width + 0.02, "high " + i);
    }
    String said = browser.text("verdict");
    assertTrue(said.startsWith("Volume pot 250k to 500k"), said);
    assertTrue(said.contains(prediction.audibility().verdict().words()), said);
  }

  @Test
  void theStrikesSoundAsTheProgramRendersThem() throws Exception {
    browser.open(folder, measured.page());
    Rendering program =
        Rendering.of(
            measured.chain(), measured.before(), measured.after(), Optional.empty(), false);
    double change =
        ((Number) browser.js("return demonstration.loudnessChange(48000);")).doubleValue();
    // Blocks are cut before the filter instead of behind it.
    assertEquals(program.loudnessAfter() - program.loudnessBefore(), change, 0.02, "loudness");
    double[] page =
        browser.numbersLater(
            "demonstration.rendered('before', demonstration.strikes(48000), 48000)");
    double[] own = new double[program.before().length];
    for (int i = 0; i < own.length; i++) {
      own[i] = program.before()[i];
    }
    assertEquals(own.length, page.length);
    double[] there = partials(own);
    double[] here = partials(page);
    for (int i = 0; i < here.length; i++) {
      // Partials with a node where the string is struck or heard are all but absent.
      if (there[i] > there[0] - 60) {
        assertEquals(there[i] - there[0], here[i] - here[0], 0.1, "partial " + (i + 1));
      }
    }
  }

  /** Levels of partials of the low string while it sounds alone. */
  private static double[] partials(double[] samples) {
    int from = (int) (0.15 * RATE);
    double[] part = Arrays.copyOfRange(samples, from, from + (int) (0.4 * RATE));
    for (int i = 0; i < part.length; i++) {
      part[i] *= 0.5 - 0.5 * Math.cos(2 * Math.PI * (i + 0.5) / part.length);
    }
    double[] levels = new double[60];
    for (int n = 1; n <= levels.length; n++) {
      levels[n - 1] = level(part, n * 82.4069 * Math.sqrt(1 + 4e-5 * n * n));
    }
    return levels;
  }

  @Test
  void goingOverDoesNotClick() throws Exception {
    browser.open(folder, measured.page());
    browser.move("volumeRotation", 3);
    double[] tone = new double[RATE];
    for (int i = 0; i < tone.length; i++) {
      tone[i] = 0.1 * Math.sin(2 * Math.PI * 220 * i / RATE);
    }
    double[] heard =
        browser.numbersLater("demonstration.crossfaded(arguments[0], 48000, 0.5)", list(tone));
    double steady = 0;
    double over = 0;
    for (int i = RATE / 4; i < heard.length - 1; i++) {
      double bend = Math.abs(heard[i + 1] - 2 * heard[i] + heard[i - 1]);
      if (i < RATE / 2 - 10) {
        steady = Math.max(steady, bend);
      } else {
        over = Math.max(over, bend);
      }
    }
    // A step of a hundredth of the tone would bend ten times as much as the tone itself does.
    assertTrue(over < 3 * steady, over + " against " + steady);
  }

  @Test
  void nothingSoundsUntilItIsAskedTo() throws Exception {
    browser.open(folder, measured.page());
    assertEquals(false, browser.js("return demonstration.playing();"));
    browser.id("play").click();
    browser.await("demonstration.playing()");
    assertEquals("Stop", browser.text("play"));
    browser.move("toneRotation", 4);
    browser.driver().findElement(By.tagName("body")).sendKeys("a");
    browser.await("document.getElementById('after').getAttribute('aria-pressed') === 'true'");
    browser.driver().findElement(By.tagName("body")).sendKeys("p");
    browser.await("!demonstration.playing()");
  }

  @Test
  void everythingIsReachedByKeyboardAndHasAName() throws Exception {
    browser.open(folder, measured.page());
    browser.js("document.querySelectorAll('[hidden]').forEach((e) => { e.hidden = false; });");
    for (WebElement e :
        browser.driver().findElements(By.cssSelector("button, input, select, textarea"))) {
      String name = e.getAccessibleName();
      assertFalse(name == null || name.isBlank(), "no name: " + e.getDomProperty("outerHTML"));
    }
    WebElement volume = browser.id("turn-volumeRotation");
    volume.sendKeys(Keys.ARROW_LEFT);
    assertEquals("9.9 of 10", volume.getDomAttribute("aria-valuetext"));
    String figure =
        (String)
            browser.js("return document.querySelector('#levels svg').getAttribute('aria-label');");
    assertTrue(figure.contains("volume turned from 10 to 9.9"), figure);
    volume.sendKeys(Keys.HOME);
    browser.await("document.getElementById('verdict').textContent.includes('silence')");
  }

  @Test
  void aListenerWhoGuessesLandsAtOneHalf() throws Exception {
    browser.open(folder, measured.page());
    // Three listeners: one tosses a coin, two are stubborn. The hidden order is the page's own
    // chance.
    for (String guess : List.of("Math.random() < 0.5", "true", "false")) {
      double right =
          ((Number)
                  browser.js(
                      """
                      const id = (i) => document.getElementById(i);
                      let right = 0;
                      id('trials').value = '20';
                      for (let test = 0; test < 100; test++) {
                        id('begin').click();
                        for (let trial = 0; trial < 20; trial++) {
                          id(GUESS ? 'say-before' : 'say-after').click();
                        }
                        right += Number(/^(\\d+) of 20 right/.exec(id('result').textContent)[1]);
                      }
                      return right / 2000;
                      """
                          .replace("GUESS", guess)))
              .doubleValue();
      System.out.printf("browser: guessing by \"%s\": %.1f %% right%n", guess, 100 * right);
      // 2000 trials scatter by 1.1 %; 5 % is more than four times that.
      assertEquals(0.5, right, 0.05, guess);
    }
    String lines = browser.id("lines").getDomProperty("value");
    assertEquals(300, lines.split("\n").length);
    assertTrue(lines.contains("of 20 right. By guessing alone as many or more come out in"), lines);
  }

  @Test
  void theHiddenSoundIsTheOneThatIsHeard() throws Exception {
    for (int side = 0; side < 2; side++) {
      browser.open(folder, measured.page());
      browser.js(
          """
          crypto.getRandomValues = (bytes) => bytes.fill(arguments[0]);
          const make = AudioContext.prototype.createGain;
          window.gains = [];
          AudioContext.prototype.createGain = function () {
            const gain = make.call(this);
            window.gains.push(gain);
            return gain;
          };
          """
              .replace("arguments[0]", Integer.toString(side)));
      browser.id("begin").click();
      browser.id("hear-x").click();
      // The overall level comes first, then before and after.
      browser.await(
          "window.gains.length === 3 && window.gains[" + (1 + side) + "].gain.value > 0.99");
      browser.await("window.gains[" + (2 - side) + "].gain.value < 0.01");
      browser.driver().findElement(By.tagName("body")).sendKeys(side == 0 ? "a" : "b");
      browser.await("window.gains[" + (2 - side) + "].gain.value > 0.99");
      for (int i = 0; i < 16; i++) {
        browser.id(side == 0 ? "say-before" : "say-after").click();
      }
      assertTrue(
          browser
              .text("result")
              .startsWith(
                  "16 of 16 right. By guessing alone as many or more come"
                      + " out in less than 0.1 % of tests (binomial): you hear it."),
          browser.text("result"));
      assertTrue(browser.id("controls").isEnabled());
    }
  }

  @Test
  void sayingsAreOneClickFromTheirBlindTest() throws Exception {
    browser.open(folder, measured.page());
    List<WebElement> sayings = browser.driver().findElements(By.cssSelector(".saying"));
    assertEquals(5, sayings.size());
    sayings.get(0).findElements(By.tagName("button")).get(1).click();
    assertTrue(browser.id("trial").isDisplayed());
    assertFalse(browser.id("turn-volume").isEnabled(), "a knob that could give it away");
    browser.id("leave").click();
    browser.await(
        "document.getElementById('verdict').textContent.startsWith('Volume pot 1M to 2M')");
    sayings.get(3).findElements(By.tagName("button")).get(0).click();
    browser.await("document.getElementById('verdict').textContent.includes('a fifth more ohms')");
    browser.id("back").click();
    browser.await("document.getElementById('verdict').textContent.startsWith('Volume pot 240k')");
  }

  @Test
  void namesWithMarkupStayText() throws Exception {
    String nasty = "</script><img src=x onerror=\"window.bad=1\"><b>&amp;@DATE@";
    SignalChain typed = TypedGuitars.single(WIRING);
    SignalChain named =
        new SignalChain(
            nasty,
            typed.coils(),
            typed.knowledge(),
            typed.slots(),
            typed.layouts(),
            typed.current(),
            List.of());
    browser.open(folder, Demonstrated.changed(named, "volume=500k").page());
    assertEquals(nasty, browser.driver().findElement(By.tagName("h1")).getText());
    assertEquals(0, browser.driver().findElements(By.tagName("img")).size());
    assertEquals(null, browser.js("return window.bad || null;"));
    browser.await("demonstration.band('difference')");
  }

  @Test
  void aRecordingGoesThroughTheRatioOfTheTwoResponses() throws Exception {
    Random random = new Random(19);
    float[] noise = new float[RATE];
    for (int i = 0; i < noise.length; i++) {
      noise[i] = (float) (0.1 * random.nextGaussian());
    }
    Path file = folder.resolve("riff.wav");
    WavWriter.write(file, new float[][] {noise}, RATE, WavWriter.Encoding.PCM24);
    CarriedStrike strike = CarriedStrike.of(SoundFile.read(file));
    browser.open(folder, measured.page(Optional.of(strike)));
    double[] impulse = new double[8192];
    impulse[0] = 0.001;
    double[][] sides = new double[2][];
    for (int s = 0; s < 2; s++) {
      sides[s] =
          browser.numbersLater(
              "demonstration.rendered(arguments[0], arguments[1], 48000)",
              s == 0 ? "before" : "after",
              list(impulse));
    }
    double[] hz = logarithmic(80, 12000, 40);
    double[] before =
        new Predictor(measured.chain(), measured.after(), measured.before(), 1).curve(hz);
    double[] after = measured.predicted("", hz);
    for (int i = 0; i < hz.length; i++) {
      assertEquals(level(sides[0], hz[0]), level(sides[0], hz[i]), 0.01, "before is the recording");
      double ratio = after[i] - before[i] - (after[0] - before[0]);
      assertEquals(ratio, level(sides[1], hz[i]) - level(sides[1], hz[0]), 0.05, hz[i] + " Hz");
    }
  }

  @Test
  void paperKeepsTheCurvesAlone() throws Exception {
    browser.open(folder, measured.page());
    browser.printed(true);
    assertTrue(browser.driver().findElement(By.cssSelector("#levels svg")).isDisplayed());
    for (String hidden : List.of("play", "begin", "turn-volume")) {
      assertFalse(browser.id(hidden).isDisplayed(), hidden);
    }
    assertTrue(browser.text("stands").contains("volume pot 525k"), browser.text("stands"));
    browser.printed(false);
  }

  @Test
  void picturesToLookAt() throws Exception {
    Path pictures = Files.createDirectories(Path.of("target/screens/page"));
    browser.open(folder, measured.page());
    browser.await("demonstration.band('difference')");
    for (int width : new int[] {1200, 800, 390}) {
      for (boolean dark : new boolean[] {false, true}) {
        browser.picture(
            pictures.resolve(width + (dark ? "-dark" : "-light") + ".png"), width, dark);
        double beyond =
            ((Number)
                    browser.js(
                        "return document.documentElement.scrollWidth - document.documentElement.clientWidth;"))
                .doubleValue();
        assertEquals(0, beyond, "wider than the screen of " + width);
      }
    }
    browser.driver().executeCdpCommand("Emulation.clearDeviceMetricsOverride", Map.of());
  }

  private static int stop(String key, String label) {
    Number at =
        (Number)
            browser.js(
                "return JSON.parse(document.getElementById('guitar').textContent).controls"
                    + ".find((c) => c.key === arguments[0]).stops"
                    + ".findIndex((s) => s.label === arguments[1]);",
                key,
                label);
    assertTrue(at.intValue() >= 0, key + " has no stop " + label);
    return at.intValue();
  }

  private static List<Double> list(double[] numbers) {
    return Arrays.stream(numbers).boxed().toList();
  }

  private static double[] logarithmic(double from, double to, int count) {
    double[] hz = new double[count];
    for (int i = 0; i < count; i++) {
      hz[i] = from * Math.pow(to / from, i / (count - 1.0));
    }
    return hz;
  }
}
