package org.trebleproof.report.demonstration;

import com.fasterxml.jackson.core.JsonFactory;
import com.fasterxml.jackson.core.JsonGenerator;
import java.io.IOException;
import java.io.StringWriter;
import java.io.UncheckedIOException;
import java.util.List;
import java.util.Map;
import java.util.Optional;
import java.util.OptionalDouble;
import org.trebleproof.bench.mod.turn.Stop;
import org.trebleproof.bench.mod.turn.TriedSaying;
import org.trebleproof.bench.mod.turn.TurnControl;
import org.trebleproof.bench.mod.turn.TurnSettings;
import org.trebleproof.bench.mod.turn.TurnableGuitar;
import org.trebleproof.circuit.Circuit;

/** A guitar that can be turned, as the page's script reads it. */
final class TurnableJson {
  /** Digits of a random guitar's values; of the middle all are kept. */
  private static final int DIGITS = 9;

  private final JsonGenerator json;

  private TurnableJson(JsonGenerator json) {
    this.json = json;
  }

  /** The text, with nothing in it that HTML or XML would read as markup. */
  static String text(TurnableGuitar guitar, Optional<CarriedStrike> strike) {
    StringWriter text = new StringWriter(1 << 16);
    try (JsonGenerator generator = new JsonFactory().createGenerator(text)) {
      new TurnableJson(generator).write(guitar, strike);
    } catch (IOException impossible) {
      throw new UncheckedIOException(impossible); // a StringWriter does not fail
    }
    return text.toString().replace("&", "\\u0026").replace("<", "\\u003c").replace(">", "\\u003e");
  }

  private void write(TurnableGuitar guitar, Optional<CarriedStrike> strike) throws IOException {
    json.writeStartObject();
    json.writeStringField("title", guitar.title());
    json.writeArrayFieldStart("models");
    for (TurnableGuitar.Values values : guitar.models()) {
      writeValues(values);
    }
    json.writeEndArray();
    json.writeArrayFieldStart("circuits");
    for (List<Circuit> wiring : guitar.circuits()) {
      json.writeStartArray();
      for (Circuit circuit : wiring) {
        new CircuitJson(json).write(circuit);
      }
      json.writeEndArray();
    }
    json.writeEndArray();
    json.writeArrayFieldStart("controls");
    for (TurnControl control : guitar.controls()) {
      writeControl(control);
    }
    json.writeEndArray();
    writeNumbers("before", guitar.before());
    writeNumbers("after", guitar.after());
    json.writeArrayFieldStart("sayings");
    for (TriedSaying saying : guitar.sayings()) {
      writeSaying(saying);
    }
    json.writeEndArray();
    if (strike.isPresent()) {
      json.writeObjectFieldStart("recording");
      json.writeNumberField("rate", strike.get().rate());
      writeNumbers("settings", guitar.before());
      json.writeStringField("pcm", strike.get().pcm());
      json.writeEndObject();
    }
    json.writeEndObject();
  }

  private void writeValues(TurnableGuitar.Values values) throws IOException {
    json.writeStartObject();
    json.writeArrayFieldStart("names");
    for (String name : values.names()) {
      json.writeString(name);
    }
    json.writeEndArray();
    json.writeFieldName("centre");
    json.writeArray(values.centre(), 0, values.centre().length);
    json.writeArrayFieldStart("draws");
    for (double[] draw : values.draws()) {
      json.writeStartArray();
      for (double value : draw) {
        json.writeNumber(
            new java.math.BigDecimal(value).round(new java.math.MathContext(DIGITS)).doubleValue());
      }
      json.writeEndArray();
    }
    json.writeEndArray();
    json.writeEndObject();
  }

  private void writeControl(TurnControl control) throws IOException {
    json.writeStartObject();
    json.writeStringField("key", control.key());
    json.writeStringField("label", control.label());
    json.writeStringField(
        "kind",
        switch (control.kind()) {
          case TURN -> "turn";
          case STOPS -> "stops";
          case CHOICE -> "choice";
        });
    json.writeArrayFieldStart("stops");
    for (Stop stop : control.stops()) {
      json.writeStartObject();
      json.writeStringField("label", stop.label());
      writeStop(stop);
      json.writeEndObject();
    }
    json.writeEndArray();
    json.writeEndObject();
  }

  private void writeStop(Stop stop) throws IOException {
    if (stop instanceof Stop.Marked marked) {
      json.writeNumberField("value", marked.value());
      json.writeNumberField("sd", marked.logSd());
    } else if (stop instanceof Stop.Known known) {
      json.writeStringField("part", known.part());
      json.writeStringField("named", known.named());
    } else if (stop instanceof Stop.Bleed bleed) {
      json.writeNumberField("farad", bleed.farad());
      optional("ohm", bleed.ohm());
      json.writeBooleanField("series", bleed.inSeries());
      json.writeNumberField("sd", bleed.logSd());
    } else if (stop instanceof Stop.Wiring wiring) {
      json.writeNumberField("circuit", wiring.circuit());
    }
  }

  private void optional(String field, OptionalDouble value) throws IOException {
    if (value.isPresent()) {
      json.writeNumberField(field, value.getAsDouble());
    }
  }

  private void writeSaying(TriedSaying saying) throws IOException {
    json.writeStartObject();
    json.writeStringField("saying", saying.saying());
    json.writeStringField("answer", saying.answer());
    json.writeFieldName("before");
    writeNumbers(saying.before());
    json.writeObjectFieldStart("after");
    writeFields(saying.after());
    if (!saying.factors().isEmpty()) {
      json.writeFieldName("factors");
      writeNumbers(saying.factors());
      json.writeStringField("note", saying.note());
    }
    json.writeEndObject();
    json.writeEndObject();
  }

  private void writeNumbers(String field, TurnSettings settings) throws IOException {
    json.writeFieldName(field);
    writeNumbers(settings.values());
  }

  private void writeNumbers(Map<String, Double> numbers) throws IOException {
    json.writeStartObject();
    writeFields(numbers);
    json.writeEndObject();
  }

  private void writeFields(Map<String, Double> numbers) throws IOException {
    for (Map.Entry<String, Double> number : numbers.entrySet()) {
      json.writeNumberField(number.getKey(), number.getValue());
    }
  }
}
