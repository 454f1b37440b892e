package org.trebleproof.bench.mod.listen;

import static org.junit.jupiter.api.Assertions.assertEquals;
import static org.junit.jupiter.api.Assertions.assertThrows;
import static org.junit.jupiter.api.Assertions.assertTrue;

import java.nio.file.Path;
import java.util.Optional;
import org.junit.jupiter.api.Test;
import org.trebleproof.audio.Recording;
import org.trebleproof.bench.job.Layout;
import org.trebleproof.bench.mod.guitar.SignalChain;
import org.trebleproof.bench.mod.guitar.TypedGuitars;
import org.trebleproof.quantity.Refusal;

/** A guitar that sounds while its parts are changed, against the same change rendered whole. */
class PlayedGuitarTest {

  private static final String WIRED = "volume=250k,tone=250k,toneCapacitor=22n,cable=500p,input=1M";
  private static final SignalChain CHAIN =
      TypedGuitars.with(TypedGuitars.single(WIRED), "volume=1M,tone=1M");
  private static final Layout NOW = CHAIN.layout(Optional.empty());
  private static final Layout THEN = CHAIN.layouts().get("then");

  /** As the device asks for it: stretches that are no whole blocks. */
  private static float[] played(PlayedGuitar guitar, int length) {
    float[] all = new float[length];
    float[][] block = new float[2][240];
    for (int at = 0; at < length; at += block[0].length) {
      guitar.next(block, block[0].length);
      System.arraycopy(block[0], 0, all, at, Math.min(block[0].length, length - at));
    }
    return all;
  }

  private static double power(float[] samples) {
    double sum = 0;
    for (float sample : samples) {
      sum += sample * sample;
    }
    return sum;
  }

  private static double likeness(float[] a, float[] b) {
    double sum = 0;
    for (int i = 0; i < a.length; i++) {
      sum += a[i] * b[i];
    }
    return sum / Math.sqrt(power(a) * power(b));
  }

  @Test
  void soundsAsTheChangeRenderedWholeDoes() {
    Rendering whole = Rendering.of(CHAIN, NOW, THEN, Optional.empty(), false);
    int length = whole.before().length;
    float[] now = played(PlayedGuitar.of(CHAIN, NOW, Optional.empty()), length);
    PlayedGuitar turned = PlayedGuitar.of(CHAIN, NOW, Optional.empty());
    turned.become(CHAIN, THEN);
    float[] then = played(turned, length);
    // Only the loop's faded ends and the coarser filter differ.
    assertTrue(likeness(now, whole.before()) > 0.9999, "now: " + likeness(now, whole.before()));
    assertTrue(likeness(then, whole.after()) > 0.9999, "then: " + likeness(then, whole.after()));
    assertEquals(
        10 * Math.log10(power(whole.after()) / power(whole.before())),
        10 * Math.log10(power(then) / power(now)),
        0.02);
    double loudest = 0;
    for (float sample : now) {
      loudest = Math.max(loudest, Math.abs(sample));
    }
    assertEquals(-20, 20 * Math.log10(loudest), 0.1);
  }

  @Test
  void aRecordingOfTheGuitarAsItIsGoesThroughUnchanged() {
    float[] strike = new float[24000];
    for (int i = 0; i < 20000; i++) {
      strike[200 + i] = (float) (0.3 * Math.exp(-i / 4000.0) * Math.sin(0.05 * i));
    }
    Recording dry = new Recording(Path.of("x.wav"), new float[][] {strike}, 48000, 24, false);
    PlayedGuitar guitar = PlayedGuitar.of(CHAIN, NOW, Optional.of(dry));
    float[] first = played(guitar, strike.length);
    assertTrue(likeness(first, strike) > 0.999, "likeness " + likeness(first, strike));
  }

  @Test
  void silenceIsRefused() {
    Recording silence =
        new Recording(Path.of("x.wav"), new float[][] {new float[4800]}, 48000, 24, false);
    assertThrows(Refusal.class, () -> PlayedGuitar.of(CHAIN, NOW, Optional.of(silence)));
  }
}
