package org.trebleproof.cli.live;

import java.util.List;
import java.util.Locale;
import java.util.concurrent.CountDownLatch;
import java.util.concurrent.TimeUnit;
import java.util.function.Supplier;
import java.util.stream.Collectors;
import org.trebleproof.audio.device.LevelMeter;
import org.trebleproof.audio.device.Transport;
import org.trebleproof.bench.live.CaptureRecorder;
import org.trebleproof.bench.live.LiveBench;
import org.trebleproof.bench.live.LiveInput;
import org.trebleproof.bench.live.LiveListener;
import org.trebleproof.bench.live.StrikeRecorder;
import org.trebleproof.cli.command.Terminal;
import org.trebleproof.quantity.Finding;
import org.trebleproof.report.words.TextStyle;

/**
 * A live measurement on a terminal: a level meter on one line that is drawn over and over, and the
 * sound that fades when the person presses Ctrl-C. Where nobody watches, a plain line now and then.
 */
final class LiveTerminal implements LiveListener {

  private static final int WIDTH = 30;

  /** The meter's left end [dB]. */
  private static final double LEFT = -60;

  /** Readings between two plain lines: two seconds' worth. */
  private static final int PLAIN_EVERY = 40;

  /** Longest wait for the fade and for the files to be closed [ms]. */
  private static final long GOODBYE = 2000;

  private final Terminal terminal;
  private final boolean aside;
  private final String caution;
  private final List<Shown> shown;
  private boolean meterShown;
  private int readings;

  /**
   * A channel with a meter.
   *
   * @param name in the line with the meters
   * @param words in a plain line
   * @param channel from 1
   */
  private record Shown(String name, String words, int channel) {}

  private LiveTerminal(Terminal terminal, boolean aside, String caution, List<Shown> shown) {
    this.terminal = terminal;
    this.aside = aside;
    this.caution = caution;
    this.shown = shown;
  }

  /**
   * Where sweeps are played and recorded.
   *
   * @param aside whether standard output belongs to another program
   */
  static LiveTerminal of(Terminal terminal, boolean aside, LiveBench bench) {
    return new LiveTerminal(
        terminal,
        aside,
        CaptureRecorder.caution()
            + "\nOut: "
            + bench.playback().device().name()
            + ". "
            + in(bench.recording()),
        List.of(
            new Shown("ref", "reference", bench.referenceChannel()),
            new Shown("device", "device", bench.deviceChannel())));
  }

  /** Where strikes are recorded and nothing is played. */
  static LiveTerminal of(Terminal terminal, boolean aside, LiveInput input) {
    return new LiveTerminal(
        terminal,
        aside,
        StrikeRecorder.caution() + "\n" + in(input.recording()),
        List.of(new Shown("guitar", "guitar", input.channel())));
  }

  private static String in(Transport.Route recording) {
    return "In: "
        + recording.device().name()
        + ", "
        + recording.format().bits()
        + " bits at "
        + recording.format().sampleRate()
        + " Hz. Ctrl-C stops.";
  }

  /** Shows the caution; nothing has sounded yet. */
  void caution() {
    caution.lines().forEach(this::step);
  }

  /** Does something that sounds; if the process is told to end meanwhile, the sound fades out. */
  static <T> T whileStoppable(Transport transport, Supplier<T> work) {
    CountDownLatch done = new CountDownLatch(1);
    Thread goodbye =
        new Thread(
            () -> {
              transport.stop();
              try {
                done.await(GOODBYE, TimeUnit.MILLISECONDS);
              } catch (InterruptedException e) {
                Thread.currentThread().interrupt();
              }
            },
            "fade out");
    Runtime.getRuntime().addShutdownHook(goodbye);
    try {
      return work.get();
    } finally {
      done.countDown();
      try {
        Runtime.getRuntime().removeShutdownHook(goodbye);
      } catch (IllegalStateException e) {
        // The process is ending already: that is what the hook was for.
        transport.stop();
      }
    }
  }

  @Override
  public void step(String sentence) {
    endMeter();
    line(sentence);
  }

  @Override
  public void finding(Finding finding) {
    step(finding.severity().label() + ": " + finding.text() + " (" + finding.evidence() + ")");
  }

  @Override
  public void levels(List<LevelMeter.Reading> levels, double doneShare) {
    readings++;
    if (terminal.style() == TextStyle.ANSI && !aside) {
      terminal.out().print("\r" + bars(levels, doneShare));
      terminal.out().flush();
      meterShown = true;
    } else if (readings % PLAIN_EVERY == 0) {
      line(plain(levels, doneShare));
    }
  }

  /** All channels on one line of at most 79 characters. */
  private String bars(List<LevelMeter.Reading> levels, double doneShare) {
    return shown.stream()
            .map(c -> bar(c.name(), levels.get(c.channel() - 1), WIDTH / shown.size()))
            .collect(Collectors.joining("  "))
        + (Double.isNaN(doneShare) ? "      " : String.format(" %3.0f %%", 100 * doneShare));
  }

  private static String bar(String name, LevelMeter.Reading reading, int width) {
    StringBuilder bar = new StringBuilder();
    int peak = mark(reading.peak(), width);
    int held = mark(reading.held(), width);
    for (int i = 0; i < width; i++) {
      bar.append(i < peak ? '#' : i == held - 1 ? '|' : '.');
    }
    return String.format(
        Locale.ROOT,
        "%s %s %5.1f %s",
        name,
        bar,
        reading.held(),
        reading.clipped() ? "CLIP" : "dB  ");
  }

  private static int mark(double level, int width) {
    return (int) Math.max(0, Math.min(width, Math.round(width * (1 - level / LEFT))));
  }

  private String plain(List<LevelMeter.Reading> levels, double doneShare) {
    return "  "
        + shown.stream()
            .map(
                c -> {
                  LevelMeter.Reading reading = levels.get(c.channel() - 1);
                  return String.format(
                      Locale.ROOT,
                      "%s %.1f dB%s",
                      c.words(),
                      reading.held(),
                      reading.clipped() ? " CLIPPED" : "");
                })
            .collect(Collectors.joining(", "))
        + (Double.isNaN(doneShare) ? "" : String.format(Locale.ROOT, ", %.0f %%", 100 * doneShare));
  }

  private void endMeter() {
    if (meterShown) {
      terminal.out().println();
      meterShown = false;
    }
  }

  private void line(String text) {
    if (aside) {
      terminal.complain(text);
    } else {
      terminal.say(text);
    }
  }
}
