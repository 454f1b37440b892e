package org.trebleproof.cli;

import java.util.List;
import java.util.Locale;
import java.util.concurrent.CountDownLatch;
import java.util.concurrent.TimeUnit;
import java.util.function.Supplier;
import org.trebleproof.audio.device.LevelMeter;
import org.trebleproof.audio.device.Transport;
import org.trebleproof.bench.live.CaptureRecorder;
import org.trebleproof.bench.live.LiveBench;
import org.trebleproof.bench.live.LiveListener;
import org.trebleproof.quantity.Finding;
import org.trebleproof.report.TextStyle;

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
  private final LiveBench bench;
  private boolean meterShown;
  private int readings;

  /**
   * @param aside whether standard output belongs to another program
   */
  LiveTerminal(Terminal terminal, boolean aside, LiveBench bench) {
    this.terminal = terminal;
    this.aside = aside;
    this.bench = bench;
  }

  /** Shows the caution; nothing has sounded yet. */
  void caution() {
    step(CaptureRecorder.caution());
    step(
        "Out: "
            + bench.playback().device().name()
            + ". In: "
            + bench.recording().device().name()
            + ", "
            + bench.recording().format().bits()
            + " bits at "
            + bench.sampleRate()
            + " Hz. Ctrl-C stops.");
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
    step(finding.severity().word() + ": " + finding.text() + " (" + finding.evidence() + ")");
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

  /** Both channels on one line of at most 79 characters. */
  private String bars(List<LevelMeter.Reading> levels, double doneShare) {
    return bar("ref", levels.get(bench.referenceChannel() - 1), WIDTH / 2)
        + "  "
        + bar("device", levels.get(bench.deviceChannel() - 1), WIDTH / 2)
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
    LevelMeter.Reading reference = levels.get(bench.referenceChannel() - 1);
    LevelMeter.Reading device = levels.get(bench.deviceChannel() - 1);
    return String.format(
            Locale.ROOT,
            "  reference %.1f dB%s, device %.1f dB%s",
            reference.held(),
            reference.clipped() ? " CLIPPED" : "",
            device.held(),
            device.clipped() ? " CLIPPED" : "")
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
