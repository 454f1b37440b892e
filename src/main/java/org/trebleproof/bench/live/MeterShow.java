package org.trebleproof.bench.live;

import java.util.List;
import java.util.function.Consumer;
import org.trebleproof.audio.device.BlockListener;
import org.trebleproof.audio.device.LevelMeter;

/** Reads a level meter some twenty times a second of sound. */
final class MeterShow implements BlockListener {

  private static final double INTERVAL = 0.05;

  private final LevelMeter meter;
  private final int interval;
  private final Consumer<List<LevelMeter.Reading>> shown;
  private int since;

  MeterShow(LevelMeter meter, double sampleRate, Consumer<List<LevelMeter.Reading>> shown) {
    this.meter = meter;
    this.interval = (int) (INTERVAL * sampleRate);
    this.shown = shown;
  }

  @Override
  public void block(float[][] block, int frames) {
    meter.hear(block, frames);
    since += frames;
    if (since >= interval) {
      since = 0;
      shown.accept(meter.read());
    }
  }
}
