package org.trebleproof.bench;

import static org.junit.jupiter.api.Assertions.assertEquals;
import static org.junit.jupiter.api.Assertions.assertTrue;

import com.fasterxml.jackson.databind.JsonNode;
import com.fasterxml.jackson.databind.ObjectMapper;
import java.io.IOException;
import java.nio.file.Path;
import java.util.ArrayList;
import java.util.List;
import java.util.Map;
import java.util.TreeMap;
import java.util.function.UnaryOperator;
import java.util.regex.Matcher;
import java.util.regex.Pattern;
import java.util.stream.Stream;
import org.junit.jupiter.api.io.TempDir;
import org.junit.jupiter.params.ParameterizedTest;
import org.junit.jupiter.params.provider.MethodSource;
import org.junit.jupiter.params.provider.ValueSource;
import org.trebleproof.audio.Recording;
import org.trebleproof.audio.SoundFile;
import org.trebleproof.audio.WavWriter;
import org.trebleproof.bench.answer.FitResult;
import org.trebleproof.bench.job.CaptureEntry;
import org.trebleproof.bench.job.Job;
import org.trebleproof.bench.job.JobReader;
import org.trebleproof.quantity.Estimate;
import org.trebleproof.quantity.Finding;
import org.trebleproof.quantity.FindingCode;

/**
 * Shipped samples whose recordings have been spoiled: what is still given must be true, everything
 * else must be withdrawn by an error.
 */
class SpoiledCaptureTest {

  /** Both channels of a recording, spoiled; reference first. */
  private static final Map<String, UnaryOperator<float[][]>> SPOILT = new TreeMap<>();

  static {
    SPOILT.put("clipped", c -> new float[][] {c[0], clipped(c[1])});
    SPOILT.put("channels swapped", c -> new float[][] {c[1], c[0]});
    SPOILT.put("block dropped from both", c -> new float[][] {dropped(c[0]), dropped(c[1])});
    SPOILT.put("block dropped from device", c -> new float[][] {c[0], dropped(c[1])});
    SPOILT.put("gain control", c -> new float[][] {c[0], controlled(c[1])});
    SPOILT.put("low-passed device", c -> new float[][] {c[0], lowPassed(c[1])});
    SPOILT.put("crosstalk of 2 %", c -> new float[][] {c[0], mixed(c[1], c[0], 0.02f)});
    SPOILT.put("inverted", c -> new float[][] {c[0], each(c[1], v -> -v)});
    SPOILT.put("offset", c -> new float[][] {c[0], each(c[1], v -> v + 0.05f)});
    SPOILT.put("silent device", c -> new float[][] {c[0], each(c[1], v -> 1e-6f * v)});
  }

  /** What an exciter's free gain could hide. */
  private static final java.util.Set<String> UNDER_AN_EXCITER =
      java.util.Set.of("gain control", "low-passed device", "crosstalk of 2 %");

  private interface Sample {
    float of(float v);
  }

  private static float[] each(float[] x, Sample change) {
    float[] y = new float[x.length];
    for (int i = 0; i < x.length; i++) {
      y[i] = change.of(x[i]);
    }
    return y;
  }

  private static float peak(float[] x) {
    float peak = 0;
    for (float v : x) {
      peak = Math.max(peak, Math.abs(v));
    }
    return peak;
  }

  private static float[] clipped(float[] x) {
    float at = 0.7f * peak(x);
    return each(x, v -> Math.max(-at, Math.min(at, v)));
  }

  /** 480 samples gone in the middle, zeros at the end. */
  private static float[] dropped(float[] x) {
    float[] y = new float[x.length];
    int at = x.length * 2 / 5;
    System.arraycopy(x, 0, y, 0, at);
    System.arraycopy(x, at + 480, y, at, x.length - at - 480);
    return y;
  }

  /** Gain that falls with the level of the last 50 ms, by up to a third. */
  private static float[] controlled(float[] x) {
    float[] y = new float[x.length];
    double level = 0;
    double full = peak(x);
    for (int i = 0; i < x.length; i++) {
      level += (Math.abs(x[i]) - level) / 2400;
      y[i] = (float) (x[i] / (1 + 0.8 * level / full));
    }
    return y;
  }

  /** A symmetric filter of 15 taps: no phase of its own, and a loss that grows with frequency. */
  private static float[] lowPassed(float[] x) {
    float[] y = new float[x.length];
    for (int i = 7; i < x.length - 7; i++) {
      double sum = 0;
      double weights = 0;
      for (int k = -7; k <= 7; k++) {
        double w = 1 + Math.cos(Math.PI * k / 8);
        sum += w * x[i + k];
        weights += w;
      }
      y[i] = (float) (sum / weights);
    }
    return y;
  }

  private static float[] mixed(float[] x, float[] other, float share) {
    float[] y = new float[x.length];
    for (int i = 0; i < x.length; i++) {
      y[i] = x[i] + share * other[i];
    }
    return y;
  }

  @TempDir Path folder;

  static Stream<org.junit.jupiter.params.provider.Arguments> spoilt() {
    return SPOILT.keySet().stream()
        .flatMap(
            kind ->
                Stream.of("swap-at-jack", "pot-swap")
                    .filter(x -> x.equals("swap-at-jack") || UNDER_AN_EXCITER.contains(kind))
                    .map(s -> org.junit.jupiter.params.provider.Arguments.of(kind, s)));
  }

  @ParameterizedTest
  @MethodSource("spoilt")
  void whatIsStillGivenIsTrue(String kind, String sample) throws IOException {
    FitResult result = fitted(sample, SPOILT.get(kind));
    JsonNode truth =
        new ObjectMapper()
            .readTree(Path.of("sample-captures", sample, "truth.json").toFile())
            .get("estimates");
    List<String> lies = new ArrayList<>();
    for (FitResult.Row row : result.rows()) {
      if (row.estimate().isPresent() && truth.has(row.key().text())) {
        Estimate e = row.estimate().get();
        double t = truth.get(row.key().text()).asDouble();
        if (Math.abs(t - e.value()) > 2 * e.halfWidth()) {
          lies.add(row.key().text() + " " + t + " " + e);
        }
      }
    }
    assertEquals(
        List.of(),
        lies,
        kind + ": " + result.findings().stream().map(f -> f.code().key()).toList());
    if (!kind.equals("inverted") && !kind.equals("offset")) {
      assertTrue(
          result.findings().stream().anyMatch(f -> f.severity() != Finding.Severity.INFO),
          "nothing is said");
    }
  }

  /**
   * One capture of a bare coil: two coils with departures can be bent to take the leak for metal.
   * Its size tells where to look; a twentieth of it is near enough.
   */
  @ParameterizedTest
  @ValueSource(doubles = {-0.04, 0.02, 0.07})
  void aLeakBetweenTheChannelsIsNamed(double leak) throws IOException {
    Finding gravest =
        fitted("unlabelled-coil", c -> new float[][] {c[0], mixed(c[1], c[0], (float) leak)})
            .findings()
            .get(0);
    assertEquals(FindingCode.CHANNELS_LEAK, gravest.code());
    Matcher size = Pattern.compile("leak of (-?[0-9.]+) %").matcher(gravest.evidence());
    assertTrue(size.find(), gravest.evidence());
    assertEquals(leak, Double.parseDouble(size.group(1)) / 100, 0.05 * Math.abs(leak));
  }

  private FitResult fitted(String sample, UnaryOperator<float[][]> spoil) throws IOException {
    Job good = JobReader.read(Path.of("sample-captures", sample, "job.json"));
    List<CaptureEntry> captures = new ArrayList<>();
    for (CaptureEntry c : good.captures()) {
      Recording r = SoundFile.read(c.file());
      Path spoiled = folder.resolve(c.id() + ".wav");
      WavWriter.write(
          spoiled, spoil.apply(r.channels()), (int) r.sampleRate(), WavWriter.Encoding.FLOAT32);
      captures.add(new CaptureEntry(c.id(), spoiled, c.setup(), c.across()));
    }
    return new FitJob().run(good.withCaptures(captures));
  }
}
