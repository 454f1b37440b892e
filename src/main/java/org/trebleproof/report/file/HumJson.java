package org.trebleproof.report.file;

import org.trebleproof.bench.hum.HumCause;
import org.trebleproof.bench.hum.HumResult;
import org.trebleproof.bench.hum.HumResult.StateChange;
import org.trebleproof.bench.hum.SafetyNote;
import org.trebleproof.bench.hum.StateLevels;
import org.trebleproof.bench.hum.StateReading;
import org.trebleproof.bench.hum.VisitChange;
import org.trebleproof.json.JsonWriter;
import org.trebleproof.quantity.Estimate;
import org.trebleproof.quantity.Finding;
import org.trebleproof.report.words.Sentence;
import org.trebleproof.signal.FullScale;
import org.trebleproof.signal.MeanPower;
import org.trebleproof.signal.hum.BurstSearch;
import org.trebleproof.signal.hum.RadioSounds;
import org.trebleproof.signal.hum.ThirdOctaves;

/**
 * The result of a hum check for another program. Every level is an object of value, low and high
 * [dB], the bounds of a 95 % interval.
 */
public final class HumJson {

  private final HumResult result;
  private final JsonWriter json;

  private HumJson(HumResult result, JsonWriter json) {
    this.result = result;
    this.json = json;
  }

  /** The file's text, ending in a line feed. */
  public static String of(HumResult result) {
    return JsonWriter.file(json -> new HumJson(result, json).write());
  }

  private void write() {
    json.object();
    json.number("trebleproof", ResultJson.LAYOUT);
    json.text("check", "hum");
    writeMains();
    writeReference();
    json.object("states");
    for (StateReading reading : result.readings()) {
      writeState(reading);
    }
    json.end();
    json.array("causes");
    for (HumCause cause : result.causes()) {
      json.object();
      json.text("code", cause.code().key());
      json.text("strength", cause.strength().words());
      json.text("text", Sentence.of(cause.code().words()));
      json.text("evidence", Sentence.of(cause.heard()));
      json.text("next", cause.next());
      json.end();
    }
    json.end();
    if (!result.visit().isEmpty()) {
      writeVisit();
    }
    json.array("findings");
    for (Finding finding : result.findings()) {
      json.object();
      json.text("severity", finding.severity().word());
      json.text("code", finding.code().key());
      json.text("text", finding.text());
      json.text("evidence", finding.evidence());
      json.text("next", finding.next());
      json.end();
    }
    json.end();
    json.texts("safety", SafetyNote.full());
    json.end();
  }

  private void writeMains() {
    if (result.mains().isEmpty()) {
      json.nothing("mainsHz");
      return;
    }
    Estimate mains = result.mains().get();
    json.number("mainsHz", rounded(mains.value()));
    json.object("mainsHzInterval");
    json.number("low", rounded(mains.low()));
    json.number("high", rounded(mains.high()));
    json.end();
  }

  private void writeReference() {
    json.object("reference");
    json.text("kind", result.strike().isPresent() ? "strike" : "full-scale sine");
    if (result.strike().isPresent()) {
      HumResult.Strike strike = result.strike().get();
      json.text("file", strike.file().getFileName().toString());
      json.number("fullScaleDb", rounded(strike.level()));
      json.number("aWeightedFullScaleDb", rounded(strike.weighted()));
    }
    json.end();
  }

  private void writeState(StateReading reading) {
    StateLevels levels = result.levels().get(reading.state());
    json.object(reading.state().key());
    json.text("file", reading.recording().file().getFileName().toString());
    json.number("sampleRate", reading.recording().sampleRate());
    json.number("seconds", rounded(reading.recording().seconds()));
    json.number("steadySeconds", rounded(reading.steadyShare() * reading.recording().seconds()));
    writeLevel("humDb", levels.hum());
    writeLevel("buzzDb", levels.buzz());
    writeLevel("hissDb", levels.hiss());
    writeLevel("totalDb", levels.total());
    writeLevel("aWeightedDb", levels.totalWeighted());
    writeLevel("humAWeightedDb", levels.humWeighted());
    writeLevel("buzzAWeightedDb", levels.buzzWeighted());
    writeLevel("hissAWeightedDb", levels.hissWeighted());
    if (levels.bursts().isPresent()) {
      writeLevel("burstsDb", levels.bursts().get());
    } else {
      json.nothing("burstsDb");
    }
    writeRadio(reading.radio());
    StateChange change = result.changes().get(reading.state());
    if (change != null) {
      json.object("change");
      json.text("over", change.reference().key());
      json.number("gainTakenOutDb", rounded(change.gain()));
      writeLevel("humDb", change.hum());
      writeLevel("buzzDb", change.buzz());
      writeLevel("humAndBuzzDb", change.lines());
      json.end();
    }
    writeHarmonics(reading);
    writeThirdOctaves(reading);
    json.end();
  }

  private void writeRadio(RadioSounds radio) {
    json.array("radio");
    if (radio.phone().found()) {
      writeRadio("phone", BurstSearch.RATE, radio.phone().occupancy());
    }
    if (radio.frames().isPresent()) {
      writeRadio("frames", radio.frames().get().clock().rate(), Double.NaN);
    }
    if (radio.packets().isPresent()) {
      writeRadio("packets", radio.packets().get().perSecond(), radio.packets().get().share());
    }
    if (radio.programme().isPresent()) {
      writeRadio("programme", Double.NaN, Double.NaN);
    }
    json.end();
  }

  private void writeRadio(String kind, double perSecond, double share) {
    json.object();
    json.text("kind", kind);
    writeNumber("perSecond", perSecond);
    writeNumber("share", share);
    json.end();
  }

  private void writeNumber(String name, double value) {
    if (Double.isNaN(value)) {
      json.nothing(name);
    } else {
      json.number(name, rounded(value));
    }
  }

  private void writeHarmonics(StateReading reading) {
    json.array("harmonics");
    double reference = result.strike().map(HumResult.Strike::level).orElse(0.0);
    for (int k = 1; k <= reading.spectrum().harmonics(); k++) {
      MeanPower power = reading.spectrum().harmonic(k);
      if (power.present() && !reading.leftOut()[k - 1]) {
        json.object();
        json.number("harmonic", k);
        json.number("hz", rounded(k * reading.spectrum().fundamental()));
        json.number("value", rounded(level(power.positive(), reference)));
        json.number("low", rounded(level(power.quantile(0.025), reference)));
        json.number("high", rounded(level(power.quantile(0.975), reference)));
        json.end();
      }
    }
    json.end();
  }

  private void writeThirdOctaves(StateReading reading) {
    double reference = result.strike().map(HumResult.Strike::level).orElse(0.0);
    double[] powers = ThirdOctaves.powers(reading.spectrum().mean(), reading.spectrum().binWidth());
    json.object("thirdOctaves");
    json.array("hz");
    for (int n = ThirdOctaves.LOWEST; n <= ThirdOctaves.HIGHEST; n++) {
      json.number(rounded(ThirdOctaves.centre(n)));
    }
    json.end();
    json.array("dB");
    for (double power : powers) {
      json.number(rounded(level(power, reference)));
    }
    json.end();
    json.end();
  }

  private void writeVisit() {
    json.object("difference");
    for (VisitChange change : result.visit()) {
      json.object(change.state().key());
      writeLevel("humDb", change.hum());
      writeLevel("buzzDb", change.buzz());
      writeLevel("totalDb", change.lines());
      writeLevel("aWeightedDb", change.weighted());
      json.array("harmonics");
      for (VisitChange.HarmonicChange harmonic : change.harmonics()) {
        json.object();
        json.number("harmonic", harmonic.harmonic());
        json.number("hz", rounded(harmonic.hz()));
        json.number("value", rounded(harmonic.change().value()));
        json.number("low", rounded(harmonic.change().low()));
        json.number("high", rounded(harmonic.change().high()));
        json.end();
      }
      json.end();
      json.end();
    }
    json.end();
  }

  private void writeLevel(String name, Estimate level) {
    json.object(name);
    json.number("value", rounded(level.value()));
    json.number("low", rounded(level.low()));
    json.number("high", rounded(level.high()));
    json.end();
  }

  private static double level(double power, double reference) {
    return FullScale.level(Math.max(power, Float.MIN_NORMAL)) - reference;
  }

  private static double rounded(double value) {
    return Math.rint(value * 1e4) / 1e4;
  }
}
