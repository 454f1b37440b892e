package org.trebleproof.report.demonstration;

import java.io.File;
import java.io.IOException;
import java.nio.file.Files;
import java.nio.file.Path;
import java.util.Base64;
import java.util.List;
import java.util.Map;
import java.util.logging.Level;
import java.util.logging.Logger;
import org.openqa.selenium.By;
import org.openqa.selenium.WebElement;
import org.openqa.selenium.chrome.ChromeDriver;
import org.openqa.selenium.chrome.ChromeDriverService;
import org.openqa.selenium.chrome.ChromeOptions;
import org.openqa.selenium.logging.LogEntry;
import org.openqa.selenium.logging.LogType;
import org.openqa.selenium.logging.LoggingPreferences;

/** A page in a real browser, opened from disk as a reader would open it. */
final class PageInBrowser implements AutoCloseable {
  private static final Logger SELENIUM = Logger.getLogger("org.openqa.selenium");

  private final ChromeDriver driver;

  PageInBrowser() {
    SELENIUM.setLevel(Level.SEVERE);
    LoggingPreferences logs = new LoggingPreferences();
    logs.enable(LogType.BROWSER, Level.ALL);
    logs.enable(LogType.PERFORMANCE, Level.ALL);
    ChromeOptions options = new ChromeOptions();
    options.setBinary("/usr/bin/chromium");
    options.addArguments(
        "--headless",
        "--no-sandbox",
        "--disable-gpu",
        "--disable-background-networking",
        "--window-size=1200,900");
    options.setCapability("goog:loggingPrefs", logs);
    driver =
        new ChromeDriver(
            new ChromeDriverService.Builder()
                .usingDriverExecutable(new File("/usr/bin/chromedriver"))
                .usingAnyFreePort()
                .build(),
            options);
    driver.manage().timeouts().scriptTimeout(java.time.Duration.ofSeconds(60));
  }

  PageInBrowser open(Path folder, String html) throws IOException {
    Path file = folder.resolve("page.html");
    Files.writeString(file, html);
    driver.get(file.toUri().toString());
    return this;
  }

  /** What a function body returns. */
  Object js(String body, Object... arguments) {
    return driver.executeScript(body, arguments);
  }

  /** What a promise returned by an expression comes to. */
  Object later(String expression, Object... arguments) {
    return driver.executeAsyncScript(
        "const done = arguments[arguments.length - 1]; (" + expression + ").then(done);",
        arguments);
  }

  double[] numbers(String body, Object... arguments) {
    return array(js(body, arguments));
  }

  double[] numbersLater(String expression, Object... arguments) {
    return array(later(expression, arguments));
  }

  private static double[] array(Object list) {
    return ((List<?>) list).stream().mapToDouble(v -> ((Number) v).doubleValue()).toArray();
  }

  WebElement id(String id) {
    return driver.findElement(By.id(id));
  }

  String text(String id) {
    return id(id).getText();
  }

  /** Moves a slider or picks from a list, as a hand would. */
  void move(String key, double value) {
    js(
        "const e = document.getElementById('turn-' + arguments[0]); e.value = String(arguments[1]);"
            + "e.dispatchEvent(new Event(e.tagName === 'SELECT' ? 'change' : 'input', {bubbles: true}));",
        key,
        value);
  }

  /** Waits until an expression holds. */
  void await(String expression) throws InterruptedException {
    for (int i = 0; i < 200; i++) {
      if (Boolean.TRUE.equals(js("return !!(" + expression + ");"))) {
        return;
      }
      Thread.sleep(50);
    }
    throw new AssertionError("the page never came to: " + expression);
  }

  /** Everything that the browser complained of. */
  List<String> complaints() {
    return driver.manage().logs().get(LogType.BROWSER).getAll().stream()
        .map(LogEntry::getMessage)
        .toList();
  }

  /** Every request since the last call that went further than this disk. */
  List<String> requests() {
    return driver.manage().logs().get(LogType.PERFORMANCE).getAll().stream()
        .map(LogEntry::getMessage)
        .filter(m -> m.contains("\"Network.requestWillBeSent\""))
        .filter(m -> !m.contains("\"url\":\"file:"))
        .toList();
  }

  /** A picture of the page as it looks on a screen of that width. */
  void picture(Path file, int width, boolean dark) throws IOException {
    driver.executeCdpCommand(
        "Emulation.setEmulatedMedia",
        Map.of(
            "features",
            List.of(Map.of("name", "prefers-color-scheme", "value", dark ? "dark" : "light"))));
    driver.executeCdpCommand(
        "Emulation.setDeviceMetricsOverride",
        Map.of("width", width, "height", 900, "deviceScaleFactor", 1, "mobile", width < 500));
    Object data =
        driver
            .executeCdpCommand(
                "Page.captureScreenshot", Map.of("format", "png", "captureBeyondViewport", true))
            .get("data");
    Files.write(file, Base64.getDecoder().decode(data.toString()));
  }

  void printed(boolean paper) {
    driver.executeCdpCommand("Emulation.setEmulatedMedia", Map.of("media", paper ? "print" : ""));
  }

  ChromeDriver driver() {
    return driver;
  }

  @Override
  public void close() {
    driver.quit();
  }
}
