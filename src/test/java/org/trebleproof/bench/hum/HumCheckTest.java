package org.trebleproof.bench.hum;

import static org.junit.jupiter.api.Assertions.assertEquals;
import static org.junit.jupiter.api.Assertions.assertFalse;
import static org.junit.jupiter.api.Assertions.assertThrows;
import static org.junit.jupiter.api.Assertions.assertTrue;

import java.io.IOException;
import java.nio.file.Files;
import java.nio.file.Path;
import java.util.Map;
import java.util.Optional;
import java.util.SplittableRandom;
import org.junit.jupiter.api.Test;
import org.junit.jupiter.api.io.TempDir;
import org.trebleproof.audio.SoundFile;
import org.trebleproof.audio.WavWriter;
import org.trebleproof.quantity.Refusal;

class HumCheckTest {

  @TempDir Path folder;

  private Path silence(String name, int rate, double seconds, double hum) {
    return silence(name, rate, seconds, hum, 1e-5);
  }

  private Path silence(String name, int rate, double seconds, double hum, double hiss) {
    SplittableRandom random = new SplittableRandom(name.hashCode());
    float[] x = new float[(int) (rate * seconds)];
    for (int i = 0; i < x.length; i++) {
      double t = (double) i / rate;
      double sum = 0;
      for (int k = 1; k <= 9; k += 2) {
        sum += Math.sin(2 * Math.PI * 50 * k * t + k) / k;
      }
      x[i] = (float) (hum * sum + hiss * (random.nextDouble() - 0.5));
    }
    return write(name, rate, x);
  }

  private Path write(String name, int rate, float[]... channels) {
    Path file = folder.resolve(name);
    WavWriter.write(file, channels, rate, WavWriter.Encoding.PCM24);
    return file;
  }

  private static HumResult check(Map<HumState, Path> states) {
    return new HumCheck(1).run(states, Optional.empty(), Map.of());
  }

  private static boolean tells(HumResult result, String code) {
    return result.findings().stream().anyMatch(f -> f.code().key().equals(code));
  }

  @Test
  void tooShortIsRefusedByName() {
    Path file = silence("short.wav", 48000, 1.5, 1e-3);
    Refusal refusal = assertThrows(Refusal.class, () -> check(Map.of(HumState.HANDS_OFF, file)));
    assertTrue(refusal.getMessage().contains("short.wav"), refusal.getMessage());
    assertTrue(refusal.getMessage().contains("ten seconds"), refusal.getMessage());
  }

  @Test
  void fourSecondsAreTakenWithAWarning() {
    HumResult result = check(Map.of(HumState.HANDS_OFF, silence("brief.wav", 48000, 4, 1e-3)));
    assertTrue(tells(result, "short"));
    assertEquals(50, result.mains().orElseThrow().value(), 0.01);
  }

  @Test
  void digitalSilenceAndOverdriveAreLeftOut() {
    float[] clipped = new float[48000 * 4];
    for (int i = 0; i < clipped.length; i++) {
      clipped[i] = (float) Math.max(-1, Math.min(1, 3 * Math.sin(2 * Math.PI * 50 * i / 48000.0)));
    }
    HumResult result =
        check(
            Map.of(
                HumState.HANDS_OFF, silence("off.wav", 48000, 4, 1e-3),
                HumState.ON_STRINGS, write("nothing.wav", 48000, new float[48000 * 4]),
                HumState.ON_SLEEVE, write("loud.wav", 48000, clipped)));
    assertTrue(tells(result, "silent"));
    assertTrue(tells(result, "clipped"));
    assertEquals(1, result.readings().size());
  }

  @Test
  void nothingUsableIsRefusedInOneSentence() {
    Path file = write("nothing.wav", 48000, new float[48000 * 4]);
    Refusal refusal = assertThrows(Refusal.class, () -> check(Map.of(HumState.HANDS_OFF, file)));
    assertTrue(refusal.getMessage().contains("nothing.wav"), refusal.getMessage());
  }

  @Test
  void differentRatesAreSaid() {
    HumResult result =
        check(
            Map.of(
                HumState.HANDS_OFF, silence("a.wav", 48000, 4, 1e-3),
                HumState.ON_STRINGS, silence("b.wav", 44100, 4, 1e-3)));
    assertTrue(tells(result, "rate-differs"));
    assertEquals(0, result.changes().get(HumState.ON_STRINGS).hum().value(), 0.1);
  }

  @Test
  void unreadableAndMissingFilesAreRefused() throws IOException {
    Path text = Files.writeString(folder.resolve("notes.wav"), "no sound at all, only words");
    assertThrows(Refusal.class, () -> check(Map.of(HumState.HANDS_OFF, text)));
    Path missing = folder.resolve("missing.wav");
    assertThrows(Refusal.class, () -> check(Map.of(HumState.HANDS_OFF, missing)));
  }

  @Test
  void theGuitarsChannelIsTheOneAskedFor() {
    Path file = silence("one.wav", 48000, 4, 1e-3);
    float[] sound = SoundFile.read(file).channel(1);
    Path stereo = write("two.wav", 48000, new float[sound.length], sound);
    HumResult result =
        new HumCheck(2).run(Map.of(HumState.HANDS_OFF, stereo), Optional.empty(), Map.of());
    assertEquals(50, result.mains().orElseThrow().value(), 0.01);
    Refusal refusal = assertThrows(Refusal.class, () -> check(Map.of(HumState.HANDS_OFF, stereo)));
    assertTrue(refusal.getMessage().contains("--channel"), refusal.getMessage());
  }

  /** Hiss beside a humming or a played channel is no guitar, unless someone says that it is. */
  @Test
  void hissBesideAChannelWithMoreIsNoQuietGuitar() {
    float[] hum = SoundFile.read(silence("hum.wav", 48000, 4, 1e-3)).channel(1);
    float[] hiss = SoundFile.read(silence("hiss.wav", 48000, 4, 0, 1e-4)).channel(1);
    Path stereo = write("stereo.wav", 48000, hiss, hum);
    Refusal refusal =
        assertThrows(
            Refusal.class,
            () ->
                HumCheck.ofTheFirstChannel()
                    .run(Map.of(HumState.HANDS_OFF, stereo), Optional.empty(), Map.of()));
    assertTrue(refusal.getMessage().contains("--channel 2"), refusal.getMessage());
    HumResult said = check(Map.of(HumState.HANDS_OFF, stereo));
    assertEquals(HumCause.Code.QUIET, said.causes().get(0).code());
    Path alike = write("alike.wav", 48000, hiss, hiss);
    HumResult quiet =
        HumCheck.ofTheFirstChannel()
            .run(Map.of(HumState.HANDS_OFF, alike), Optional.empty(), Map.of());
    assertEquals(HumCause.Code.QUIET, quiet.causes().get(0).code());
  }

  /** All the hiss is 14 dB stronger, but what lies about 50 Hz of it is 9 dB weaker. */
  @Test
  void humThatHissDoesNotCoverIsNotCalledQuiet() {
    double hiss = 1e-2;
    double power = hiss * hiss / 12 * Math.pow(10, -1.4);
    HumResult result =
        check(Map.of(HumState.HANDS_OFF, silence("low.wav", 48000, 8, Math.sqrt(2 * power), hiss)));
    assertTrue(
        result.causes().stream().noneMatch(c -> c.code() == HumCause.Code.QUIET),
        result.causes().toString());
  }

  /** A recorder turned up by 9 dB: the hiss gives it away, and the fall is what it was. */
  @Test
  void aTurnedGainIsTakenOut() {
    double up = Math.pow(10, 9 / 20.0);
    HumResult result =
        check(
            Map.of(
                HumState.HANDS_OFF, silence("a.wav", 48000, 6, 1e-2, 1e-4),
                HumState.ON_STRINGS, silence("b.wav", 48000, 6, 1e-3 * up, 1e-4 * up)));
    assertTrue(tells(result, "gain-changed"));
    assertEquals(-20, result.changes().get(HumState.ON_STRINGS).hum().value(), 0.3);
  }

  @Test
  void levelsAreRelativeToTheStrike() {
    Path off = silence("off.wav", 48000, 6, 1e-3);
    float[] x = new float[48000 * 3];
    for (int i = 48000; i < 2 * 48000; i++) {
      x[i] = (float) (0.1 * Math.sin(2 * Math.PI * 440 * i / 48000.0));
    }
    Path strike = write("strike.wav", 48000, x);
    HumResult plain = check(Map.of(HumState.HANDS_OFF, off));
    HumResult related =
        new HumCheck(1).run(Map.of(HumState.HANDS_OFF, off), Optional.of(strike), Map.of());
    assertEquals(-20, related.strike().orElseThrow().level(), 0.01);
    assertEquals(
        plain.levels().get(HumState.HANDS_OFF).hum().value() + 20,
        related.levels().get(HumState.HANDS_OFF).hum().value(),
        0.01);
  }

  /** 12 dB less after the mod, in each harmonic and in total, within intervals. */
  @Test
  void aModIsADifferenceWithAnInterval() {
    Path before = silence("before.wav", 48000, 8, 4e-3);
    Path after = silence("after.wav", 48000, 8, 1e-3);
    HumResult result =
        new HumCheck(1)
            .run(
                Map.of(HumState.HANDS_OFF, before),
                Optional.empty(),
                Map.of(HumState.HANDS_OFF, after));
    VisitChange change = result.visit().get(0);
    double truth = 20 * Math.log10(0.25);
    assertTrue(change.lines().contains(truth), change.toString());
    assertTrue(change.lines().halfWidth() < 0.2, change.toString());
    assertEquals(5, change.harmonics().size());
    change
        .harmonics()
        .forEach(h -> assertEquals(truth, h.change().value(), 0.1, "harmonic " + h.harmonic()));
    assertFalse(tells(result, "gain-between-visits"));
  }

  @Test
  void oneFileForTwoStatesIsRefused() {
    Path file = silence("off.wav", 48000, 4, 1e-3);
    Refusal refusal =
        assertThrows(
            Refusal.class,
            () -> check(Map.of(HumState.HANDS_OFF, file, HumState.ON_STRINGS, file)));
    assertTrue(refusal.getMessage().contains("every state needs its own"), refusal.getMessage());
  }

  @Test
  void aChannelThatIsNotThereIsRefusedInHumsOwnWords() {
    Path file = silence("off.wav", 48000, 4, 1e-3);
    Refusal refusal =
        assertThrows(
            Refusal.class,
            () ->
                new HumCheck(2).run(Map.of(HumState.HANDS_OFF, file), Optional.empty(), Map.of()));
    assertTrue(refusal.getMessage().contains("leave --channel out"), refusal.getMessage());
  }

  @Test
  void anOverdrivenStrikeIsSaid() {
    float[] strike = new float[48000 * 4];
    for (int i = 48000; i < strike.length; i++) {
      double ring = 3 * Math.exp(-(i - 48000) / 48000.0);
      strike[i] =
          (float) Math.max(-1, Math.min(1, ring * Math.sin(2 * Math.PI * 110 * i / 48000.0)));
    }
    HumResult result =
        new HumCheck(1)
            .run(
                Map.of(HumState.HANDS_OFF, silence("off.wav", 48000, 4, 1e-3)),
                Optional.of(write("strike.wav", 48000, strike)),
                Map.of());
    assertTrue(tells(result, "strike-clipped"));
  }

  /** A cut at either end or a gate inside changes no level and no frequency. */
  @Test
  void digitalSilenceIsCutOut() {
    float[] hum = SoundFile.read(silence("whole.wav", 48000, 8, 1e-3)).channel(1);
    HumResult whole = check(Map.of(HumState.HANDS_OFF, folder.resolve("whole.wav")));
    float[] gated = new float[12 * 48000];
    System.arraycopy(hum, 0, gated, 48000, 2 * 48000);
    System.arraycopy(hum, 2 * 48000, gated, 4 * 48000, 6 * 48000);
    HumResult cut = check(Map.of(HumState.HANDS_OFF, write("gated.wav", 48000, gated)));
    assertTrue(tells(cut, "partly-nothing"));
    assertEquals(6, cut.readings().get(0).recording().seconds(), 0.001);
    assertEquals(50, cut.mains().orElseThrow().value(), 0.01);
    StateLevels levels = cut.levels().get(HumState.HANDS_OFF);
    StateLevels truth = whole.levels().get(HumState.HANDS_OFF);
    assertEquals(truth.hum().value(), levels.hum().value(), 0.02);
    assertEquals(truth.hiss().value(), levels.hiss().value(), 0.3);
  }

  @Test
  void theChannelWithTheGuitarIsNamed() {
    float[] hum = SoundFile.read(silence("right.wav", 48000, 4, 1e-3)).channel(1);
    Path file = write("left-silent.wav", 48000, new float[hum.length], hum);
    Refusal refusal = assertThrows(Refusal.class, () -> check(Map.of(HumState.HANDS_OFF, file)));
    assertTrue(refusal.getMessage().contains("say so with --channel 2"), refusal.getMessage());
  }

  /** One state with a riff in it does not spoil the others. */
  @Test
  void whatIsNoSilenceIsLeftOut() {
    NoSilence riff = new NoSilence(17, NoSilence.Kind.PICKED_RIFF);
    HumResult result =
        check(
            Map.of(
                HumState.HANDS_OFF,
                silence("off.wav", 48000, 6, 1e-3),
                HumState.ON_STRINGS,
                write("riff.wav", (int) riff.rate, riff.samples)));
    assertTrue(tells(result, "no-silence"));
    assertEquals(1, result.readings().size());
    assertEquals(50, result.mains().orElseThrow().value(), 0.01);
  }
}
