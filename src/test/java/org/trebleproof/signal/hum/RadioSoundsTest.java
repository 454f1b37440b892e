package org.trebleproof.signal.hum;

import static org.junit.jupiter.api.Assertions.assertEquals;
import static org.junit.jupiter.api.Assertions.assertFalse;
import static org.junit.jupiter.api.Assertions.assertTrue;

import java.util.Optional;
import java.util.SplittableRandom;
import org.junit.jupiter.api.Test;
import org.junit.jupiter.params.ParameterizedTest;
import org.junit.jupiter.params.provider.ValueSource;
import org.trebleproof.signal.MeanPower;

/** Radios as their frames are published (see {@link FrameClock}), through an audio stage. */
class RadioSoundsTest {

  private static final double RATE = 48000;

  /** A recorder's clock is off by a few millionths: 12 here. */
  private static final double CLOCK = 1 + 12e-6;

  private interface Envelope {
    double at(double seconds);
  }

  private static double[] hiss(long seed) {
    return Tones.hiss(Tones.none(8), 1e-5, seed);
  }

  /** Adds a rectified envelope; the stage passes no direct current (60 Hz, one pole). */
  private static double[] add(double[] x, double peak, Envelope envelope) {
    double slow = 0;
    for (int i = 0; i < x.length; i++) {
      double input = 0;
      for (int part = 0; part < 8; part++) {
        // a converter averages over its samples, so edges do not jump by whole ones
        input += peak / 8 * envelope.at((i + part / 8.0) / RATE * CLOCK);
      }
      slow += (input - slow) * 2 * Math.PI * 60 / RATE;
      x[i] += input - slow;
    }
    return x;
  }

  /** A cordless phone: one slot of 368 us every 10 ms. */
  private static double cordless(double t) {
    return t % 0.01 < 368e-6 ? 1 : 0;
  }

  /** Hum and buzz with odd harmonics, wandering as a mains does. */
  private static double[] mains(double[] x, double hz, double peak, int step) {
    for (int i = 0; i < x.length; i++) {
      double t = i / RATE;
      double turns = hz * t + 0.002 * Math.sin(0.7 * t);
      for (int k = 1; k <= 31; k += step) {
        x[i] += peak / k * Math.sin(2 * Math.PI * k * turns + k);
      }
    }
    return x;
  }

  private static RadioSounds radio(double[] x) {
    QuietTake take = new QuietTake(Tones.floats(x), RATE);
    Optional<Double> hz = take.mainsSearch().found().map(MainsSearch.Mains::hz);
    if (hz.isEmpty() && !take.packetsOnly()) {
      hz = take.mainsSearchInAll().found().map(MainsSearch.Mains::hz);
    }
    RadioSounds radio = take.radio(hz, 50);
    assertEquals(Optional.empty(), take.foreign(hz, radio));
    return radio;
  }

  @ParameterizedTest
  @ValueSource(doubles = {49.93, 50.02, 60.01})
  void aCordlessPhoneIsToldFromTheMains(double hz) {
    double[] x = add(mains(hiss(1), hz, 3e-3, 1), 1e-3, RadioSoundsTest::cordless);
    QuietTake take = new QuietTake(Tones.floats(x), RATE);
    assertEquals(hz, take.mainsSearch().found().orElseThrow().hz(), 0.003);
    RadioSounds radio = radio(x);
    assertEquals(FrameClock.TEN_MILLISECONDS, radio.frames().orElseThrow().clock());
    // a tenth of a bin of 0.125 Hz at 1.6 kHz, the middle of the lines used
    assertEquals(12e-6, radio.frames().get().offset(), 8e-6);
  }

  /** Without any mains the packet's own length tells: no mains buzz is a rectangle of 0.37 ms. */
  @Test
  void aCordlessPhoneAloneIsNoMains() {
    double[] x = add(hiss(2), 1e-3, RadioSoundsTest::cordless);
    assertTrue(new QuietTake(Tones.floats(x), RATE).mainsSearch().found().isEmpty());
    assertTrue(radio(x).frames().isPresent());
  }

  /** Ripple at 100 per second of a mains that stands still at 50.000 Hz, to a few millionths. */
  @Test
  void rippleOfExactlyFiftyHertzIsLeftOpen() {
    double[] x = hiss(3);
    for (int k = 2; k <= 60; k += 2) {
      Tones.sine(x, k * 50.0002, 1e-3 / Math.sqrt(k));
    }
    RadioSounds radio = radio(x);
    assertFalse(radio.heard());
    assertTrue(radio.unclear().isPresent());
  }

  @Test
  void buzzOfExactlyFiftyHertzIsTheMains() {
    double[] x = hiss(4);
    for (int k = 1; k <= 60; k++) {
      Tones.sine(x, k * 50.0, 1e-3 / Math.sqrt(k));
    }
    RadioSounds radio = radio(x);
    assertFalse(radio.heard());
    assertTrue(radio.unclear().isEmpty());
  }

  @Test
  void aModemsHalfFramesAreHeard() {
    SplittableRandom random = new SplittableRandom(5);
    boolean[] busy = new boolean[9000];
    for (int i = 0; i < busy.length; i++) {
      busy[i] = random.nextInt(10) < 6;
    }
    double[] x =
        add(
            mains(hiss(5), 50.02, 1e-3, 1),
            1e-3,
            t -> (int) (t * 1000) % 5 == 2 && busy[(int) (t * 1000)] ? 1 : 0);
    assertEquals(FrameClock.FIVE_MILLISECONDS, radio(x).frames().orElseThrow().clock());
  }

  @Test
  void aHeadsetsVoicePacketsAreHeard() {
    double slot = 625e-6;
    double[] x =
        add(
            mains(hiss(6), 59.97, 1e-3, 1),
            1e-3,
            t -> (int) (t / slot) % 6 < 2 && t % slot < 366e-6 ? 1 : 0);
    assertEquals(FrameClock.SIX_SLOTS, radio(x).frames().orElseThrow().clock());
  }

  /** Beacons and traffic with random gaps; the level is that of the packets' sum of squares. */
  @Test
  void aWirelessNetworkIsHeardAndMeasured() {
    SplittableRandom random = new SplittableRandom(7);
    double[] gate = new double[(int) (8.1 * 20000)];
    for (double t = 0; t < 8; t += -Math.log(1 - random.nextDouble()) / 40) {
      for (int i = 0; i < 20; i++) {
        gate[(int) (t * 20000) + i] = 1;
      }
    }
    Envelope envelope = t -> t % 0.1024 < 0.0015 ? 1 : gate[(int) (t * 20000)];
    double[] alone = add(Tones.none(8), 1e-3, envelope);
    double square = 0;
    for (double v : alone) {
      square += v * v / alone.length;
    }
    double[] x = add(mains(hiss(7), 50.03, 1e-3, 2), 1e-3, envelope);
    RadioSounds radio = radio(x);
    assertTrue(radio.packets().orElseThrow().beacons());
    assertTrue(radio.power().quantile(0.025) < square, radio.power() + " for " + square);
    assertTrue(radio.power().quantile(0.975) > square, radio.power() + " for " + square);
  }

  /** Slots of 368 us every 10 ms: the comb holds peak^2 d (1 - d), less 2 % beyond 20 kHz. */
  @ParameterizedTest
  @ValueSource(doubles = {50.02, 60})
  void theCombsLevelIsThatOfThePackets(double hz) {
    double duty = 0.0368;
    double truth = 0.98e-6 * duty * (1 - duty);
    double[] x = add(mains(hiss(8), hz, 1e-3, 1), 1e-3, RadioSoundsTest::cordless);
    MeanPower power = radio(x).power();
    assertTrue(power.quantile(0.025) < truth, power + " for " + truth);
    assertTrue(power.quantile(0.975) > truth, power + " for " + truth);
    assertTrue(power.sd() < 0.3 * power.value(), power.toString());
  }

  /** Syllables of noise, three to five a second, with pauses: what a demodulator hands on. */
  @Test
  void aDemodulatedProgrammeIsHeard() {
    SplittableRandom random = new SplittableRandom(9);
    double[] x = mains(hiss(9), 50.03, 1e-3, 2);
    double low = 0;
    double gain = 0;
    double target = 0;
    for (int i = 0; i < x.length; i++) {
      if (i % 9600 == 0) {
        target = random.nextInt(6) == 0 ? 0 : 0.2 + random.nextDouble();
      }
      gain += (target - gain) * 0.001;
      low += (random.nextDouble() - 0.5 - low) * 0.3;
      x[i] += 1e-3 * gain * low;
    }
    RadioSounds radio = radio(x);
    assertTrue(radio.programme().isPresent());
    assertTrue(radio.packets().isEmpty());
  }

  @Test
  void oneRingingStringIsNoProgramme() {
    double[] x = mains(hiss(10), 50.03, 1e-3, 1);
    for (int i = 48000; i < x.length; i++) {
      double t = i / RATE - 1;
      for (int k = 1; k <= 9; k++) {
        x[i] += 1e-2 / k * Math.exp(-t * (1 + 0.4 * k)) * Math.sin(2 * Math.PI * 146.8 * k * t);
      }
    }
    assertFalse(radio(x).heard());
  }
}
