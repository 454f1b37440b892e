package org.trebleproof.report.file;

import com.fasterxml.jackson.core.JsonFactory;
import com.fasterxml.jackson.core.JsonGenerator;
import com.fasterxml.jackson.core.util.DefaultPrettyPrinter;
import java.io.IOException;
import java.io.StringWriter;
import java.io.UncheckedIOException;
import org.trebleproof.bench.hum.HumCause;
import org.trebleproof.bench.hum.HumResult;
import org.trebleproof.bench.hum.HumResult.StateChange;
import org.trebleproof.bench.hum.SafetyNote;
import org.trebleproof.bench.hum.StateLevels;
import org.trebleproof.bench.hum.StateReading;
import org.trebleproof.bench.hum.VisitChange;
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
  private final JsonGenerator json;

  private HumJson(HumResult result, JsonGenerator json) {
    this.result = result;
    this.json = json;
  }

  /** The file's text, ending in a line feed. */
  public static String of(HumResult result) {
    StringWriter text = new StringWriter(1 << 15);
    try (JsonGenerator json = new JsonFactory().createGenerator(text)) {
      json.setPrettyPrinter(new DefaultPrettyPrinter());
      new HumJson(result, json).write();
    } catch (IOException e) {
      throw new UncheckedIOException(e);
    }
    return text.append('\n').toString();
  }

  private void write() throws IOException {
    json.writeStartObject();
    json.writeNumberField("trebleproof", ResultJson.LAYOUT);
    json.writeStringField("check", "hum");
    writeMains();
    writeReference();
    json.writeObjectFieldStart("states");
    for (StateReading reading : result.readings()) {
      writeState(reading);
    }
    json.writeEndObject();
    json.writeArrayFieldStart("causes");
    for (HumCause cause : result.causes()) {
      json.writeStartObject();
      json.writeStringField("code", cause.code().key());
      json.writeStringField("strength", cause.strength().words());
      json.writeStringField("text", Sentence.of(cause.code().words()));
      json.writeStringField("evidence", Sentence.of(cause.evidence()));
      json.writeStringField("next", cause.next());
      json.writeEndObject();
    }
    json.writeEndArray();
    if (!result.visit().isEmpty()) {
      writeVisit();
    }
    json.writeArrayFieldStart("findings");
    for (Finding finding : result.findings()) {
      json.writeStartObject();
      json.writeStringField("severity", finding.severity().word());
      json.writeStringField("code", finding.code().key());
      json.writeStringField("text", finding.text());
      json.writeStringField("evidence", finding.evidence());
      json.writeStringField("next", finding.next());
      json.writeEndObject();
    }
    json.writeEndArray();
    json.writeArrayFieldStart("safety");
    for (String sentence : SafetyNote.full()) {
      json.writeString(sentence);
    }
    json.writeEndArray();
    json.writeEndObject();
  }

  private void writeMains() throws IOException {
    if (result.mains().isEmpty()) {
      json.writeNullField("mainsHz");
      return;
    }
    Estimate mains = result.mains().get();
    json.writeNumberField("mainsHz", rounded(mains.value()));
    json.writeObjectFieldStart("mainsHzInterval");
    json.writeNumberField("low", rounded(mains.low()));
    json.writeNumberField("high", rounded(mains.high()));
    json.writeEndObject();
  }

  private void writeReference() throws IOException {
    json.writeObjectFieldStart("reference");
    json.writeStringField("kind", result.strike().isPresent() ? "strike" : "full-scale sine");
    if (result.strike().isPresent()) {
      HumResult.Strike strike = result.strike().get();
      json.writeStringField("file", strike.file().getFileName().toString());
      json.writeNumberField("fullScaleDb", rounded(strike.level()));
      json.writeNumberField("aWeightedFullScaleDb", rounded(strike.weighted()));
    }
    json.writeEndObject();
  }

  private void writeState(StateReading reading) throws IOException {
    StateLevels levels = result.levels().get(reading.state());
    json.writeObjectFieldStart(reading.state().key());
    json.writeStringField("file", reading.recording().file().getFileName().toString());
    json.writeNumberField("sampleRate", reading.recording().sampleRate());
    json.writeNumberField("seconds", rounded(reading.recording().seconds()));
    json.writeNumberField(
        "steadySeconds", rounded(reading.steadyShare() * reading.recording().seconds()));
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
      json.writeNullField("burstsDb");
    }
    writeRadio(reading.radio());
    StateChange change = result.changes().get(reading.state());
    if (change != null) {
      json.writeObjectFieldStart("change");
      json.writeStringField("over", change.reference().key());
      json.writeNumberField("gainTakenOutDb", rounded(change.gain()));
      writeLevel("humDb", change.hum());
      writeLevel("buzzDb", change.buzz());
      writeLevel("humAndBuzzDb", change.lines());
      json.writeEndObject();
    }
    writeHarmonics(reading);
    writeThirdOctaves(reading);
    json.writeEndObject();
  }

  private void writeRadio(RadioSounds radio) throws IOException {
    json.writeArrayFieldStart("radio");
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
    json.writeEndArray();
  }

  private void writeRadio(String kind, double perSecond, double share) throws IOException {
    json.writeStartObject();
    json.writeStringField("kind", kind);
    writeNumber("perSecond", perSecond);
    writeNumber("share", share);
    json.writeEndObject();
  }

  private void writeNumber(String name, double value) throws IOException {
    if (Double.isNaN(value)) {
      json.writeNullField(name);
    } else {
      json.writeNumberField(name, rounded(value));
    }
  }

  private void writeHarmonics(StateReading reading) throws IOException {
    json.writeArrayFieldStart("harmonics");
    double reference = result.strike().map(HumResult.Strike::level).orElse(0.0);
    for (int k = 1; k <= reading.spectrum().harmonics(); k++) {
      MeanPower power = reading.spectrum().harmonic(k);
      if (power.present() && !reading.leftOut()[k - 1]) {
        json.writeStartObject();
        json.writeNumberField("harmonic", k);
        json.writeNumberField("hz", rounded(k * reading.spectrum().fundamental()));
        json.writeNumberField("value", rounded(level(power.positive(), reference)));
        json.writeNumberField("low", rounded(level(power.quantile(0.025), reference)));
        json.writeNumberField("high", rounded(level(power.quantile(0.975), reference)));
        json.writeEndObject();
      }
    }
    json.writeEndArray();
  }

  private void writeThirdOctaves(StateReading reading) throws IOException {
    double reference = result.strike().map(HumResult.Strike::level).orElse(0.0);
    double[] powers = ThirdOctaves.powers(reading.spectrum().mean(), reading.spectrum().binWidth());
    json.writeObjectFieldStart("thirdOctaves");
    json.writeArrayFieldStart("hz");
    for (int n = ThirdOctaves.LOWEST; n <= ThirdOctaves.HIGHEST; n++) {
      json.writeNumber(rounded(ThirdOctaves.centre(n)));
    }
    json.writeEndArray();
    json.writeArrayFieldStart("dB");
    for (double power : powers) {
      json.writeNumber(rounded(level(power, reference)));
    }
    json.writeEndArray();
    json.writeEndObject();
  }

  private void writeVisit() throws IOException {
    json.writeObjectFieldStart("difference");
    for (VisitChange change : result.visit()) {
      json.writeObjectFieldStart(change.state().key());
      writeLevel("humDb", change.hum());
      writeLevel("buzzDb", change.buzz());
      writeLevel("totalDb", change.lines());
      writeLevel("aWeightedDb", change.weighted());
      json.writeArrayFieldStart("harmonics");
      for (VisitChange.HarmonicChange harmonic : change.harmonics()) {
        json.writeStartObject();
        json.writeNumberField("harmonic", harmonic.harmonic());
        json.writeNumberField("hz", rounded(harmonic.hz()));
        json.writeNumberField("value", rounded(harmonic.change().value()));
        json.writeNumberField("low", rounded(harmonic.change().low()));
        json.writeNumberField("high", rounded(harmonic.change().high()));
        json.writeEndObject();
      }
      json.writeEndArray();
      json.writeEndObject();
    }
    json.writeEndObject();
  }

  private void writeLevel(String name, Estimate level) throws IOException {
    json.writeObjectFieldStart(name);
    json.writeNumberField("value", rounded(level.value()));
    json.writeNumberField("low", rounded(level.low()));
    json.writeNumberField("high", rounded(level.high()));
    json.writeEndObject();
  }

  private static double level(double power, double reference) {
    return FullScale.level(Math.max(power, Float.MIN_NORMAL)) - reference;
  }

  private static double rounded(double value) {
    return Math.rint(value * 1e4) / 1e4;
  }
}
