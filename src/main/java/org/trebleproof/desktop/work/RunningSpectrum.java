package org.trebleproof.desktop.work;

import java.util.List;
import java.util.Optional;
import org.trebleproof.desktop.text.Texts;
import org.trebleproof.report.plot.FrequencyPlot;
import org.trebleproof.report.plot.FrequencyPlot.Series;
import org.trebleproof.report.plot.FrequencyPlot.Shape;
import org.trebleproof.report.plot.FrequencyPlot.Side;
import org.trebleproof.report.plot.ValueAxis;
import org.trebleproof.signal.RealFft;

/**
 * The spectrum of what comes in, in twelfths of an octave, each with its highest line: Hann window,
 * amplitude such that a sine of full scale stands at 0 dB. Heard on one thread.
 */
final class RunningSpectrum {

  private static final int LENGTH = 8192;
  private static final int CELLS_PER_OCTAVE = 12;
  private static final double LOW_HZ = 20;
  private static final double HIGH_HZ = 20000;
  private static final double FLOOR = -110;
  private static final ValueAxis AXIS = new ValueAxis("dB", FLOOR, 6, 18);

  private final int channel;
  private final double sampleRate;
  private final double[] heard = new double[LENGTH];
  private final RealFft fft = RealFft.ofLength(LENGTH);
  private int count;

  /**
   * A spectrum of one channel.
   *
   * @param channel from 1
   */
  RunningSpectrum(int channel, double sampleRate) {
    this.channel = channel;
    this.sampleRate = sampleRate;
  }

  /** Takes sound in; a spectrum whenever enough has come. */
  Optional<FrequencyPlot> hear(float[][] block, int frames) {
    float[] samples = block[Math.min(channel, block.length) - 1];
    Optional<FrequencyPlot> full = Optional.empty();
    for (int i = 0; i < frames; i++) {
      heard[count++] = samples[i];
      if (count == LENGTH) {
        count = 0;
        full = Optional.of(plot());
      }
    }
    return full;
  }

  private FrequencyPlot plot() {
    double[] windowed = new double[LENGTH];
    for (int i = 0; i < LENGTH; i++) {
      windowed[i] = heard[i] * 0.5 * (1 - Math.cos(2 * Math.PI * i / LENGTH));
    }
    double[] re = new double[fft.bins()];
    double[] im = new double[fft.bins()];
    fft.forward(windowed, re, im);
    int cells = (int) (CELLS_PER_OCTAVE * Math.log(HIGH_HZ / LOW_HZ) / Math.log(2));
    double[] hz = new double[cells];
    double[] level = new double[cells];
    double width = sampleRate / LENGTH;
    int loudest = 0;
    for (int c = 0; c < cells; c++) {
      double low = LOW_HZ * Math.pow(2, (double) c / CELLS_PER_OCTAVE);
      double high = LOW_HZ * Math.pow(2, (c + 1.0) / CELLS_PER_OCTAVE);
      int first = (int) Math.max(1, Math.round(low / width));
      int last = (int) Math.min(fft.bins() - 1.0, Math.max(first, Math.round(high / width) - 1.0));
      double top = 0;
      for (int k = first; k <= last; k++) {
        top = Math.max(top, Math.hypot(re[k], im[k]));
      }
      hz[c] = Math.sqrt(low * high);
      // a Hann window halves a line's amplitude, and the transform counts half of it
      level[c] = Math.max(FLOOR, 20 * Math.log10(4 * top / LENGTH + 1e-12));
      loudest = level[c] > level[loudest] ? c : loudest;
    }
    return new FrequencyPlot(
        Texts.of("measure.spectrum", channel),
        Texts.of("measure.spectrum.reading", Math.round(hz[loudest]), Math.round(level[loudest])),
        LOW_HZ,
        HIGH_HZ,
        AXIS,
        List.of(Series.bare("", Shape.LINE, Side.BEFORE, hz, level)),
        List.of());
  }
}
