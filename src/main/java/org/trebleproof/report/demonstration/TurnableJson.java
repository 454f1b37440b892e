package org.trebleproof.report.demonstration;

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
import org.trebleproof.json.JsonWriter;

/** A guitar that can be turned, as the page's script reads it. */
final class TurnableJson {
  /** Digits of a random guitar's values; of the middle all are kept. */
  private static final int DIGITS = 9;

  private final JsonWriter json;

  private TurnableJson(JsonWriter json) {
    this.json = json;
  }

  /** The text, with nothing in it that HTML or XML would read as markup. */
  static String text(TurnableGuitar guitar, Optional<CarriedStrike> strike) {
    String text = JsonWriter.dense(json -> new TurnableJson(json).write(guitar, strike));
    return text.replace("&", "\\u0026").replace("<", "\\u003c").replace(">", "\\u003e");
  }

  private void write(TurnableGuitar guitar, Optional<CarriedStrike> strike) {
    json.object();
    json.text("title", guitar.title());
    json.array("models");
    for (TurnableGuitar.Values values : guitar.models()) {
      writeValues(values);
    }
    json.end();
    json.array("circuits");
    for (List<Circuit> wiring : guitar.circuits()) {
      json.array();
      for (Circuit circuit : wiring) {
        new CircuitJson(json).write(circuit);
      }
      json.end();
    }
    json.end();
    json.array("controls");
    for (TurnControl control : guitar.controls()) {
      writeControl(control);
    }
    json.end();
    writeNumbers("before", guitar.before());
    writeNumbers("after", guitar.after());
    json.array("sayings");
    for (TriedSaying saying : guitar.sayings()) {
      writeSaying(saying);
    }
    json.end();
    if (strike.isPresent()) {
      json.object("recording");
      json.number("rate", strike.get().rate());
      writeNumbers("settings", guitar.before());
      json.text("pcm", strike.get().pcm());
      json.end();
    }
    json.end();
  }

  private void writeValues(TurnableGuitar.Values values) {
    json.object();
    json.texts("names", values.names());
    json.numbers("centre", values.centre());
    json.array("draws");
    for (double[] draw : values.draws()) {
      json.array();
      for (double value : draw) {
        json.number(
            new java.math.BigDecimal(value).round(new java.math.MathContext(DIGITS)).doubleValue());
      }
      json.end();
    }
    json.end();
    json.end();
  }

  private void writeControl(TurnControl control) {
    json.object();
    json.text("key", control.key());
    json.text("label", control.label());
    json.text(
        "kind",
        switch (control.kind()) {
          case TURN -> "turn";
          case STOPS -> "stops";
          case CHOICE -> "choice";
        });
    json.array("stops");
    for (Stop stop : control.stops()) {
      json.object();
      json.text("label", stop.label());
      writeStop(stop);
      json.end();
    }
    json.end();
    json.end();
  }

  private void writeStop(Stop stop) {
    if (stop instanceof Stop.Marked marked) {
      json.number("value", marked.value());
      json.number("sd", marked.logSd());
    } else if (stop instanceof Stop.Known known) {
      json.text("part", known.part());
      json.text("named", known.named());
    } else if (stop instanceof Stop.Bleed bleed) {
      json.number("farad", bleed.farad());
      optional("ohm", bleed.ohm());
      json.flag("series", bleed.inSeries());
      json.number("sd", bleed.logSd());
    } else if (stop instanceof Stop.Wiring wiring) {
      json.number("circuit", wiring.circuit());
    }
  }

  private void optional(String field, OptionalDouble value) {
    if (value.isPresent()) {
      json.number(field, value.getAsDouble());
    }
  }

  private void writeSaying(TriedSaying saying) {
    json.object();
    json.text("saying", saying.saying());
    json.text("answer", saying.answer());
    json.key("before");
    writeNumbers(saying.before());
    json.object("after");
    writeFields(saying.after());
    if (!saying.factors().isEmpty()) {
      json.key("factors");
      writeNumbers(saying.factors());
      json.text("note", saying.note());
    }
    json.end();
    json.end();
  }

  private void writeNumbers(String field, TurnSettings settings) {
    json.key(field);
    writeNumbers(settings.values());
  }

  private void writeNumbers(Map<String, Double> numbers) {
    json.object();
    writeFields(numbers);
    json.end();
  }

  private void writeFields(Map<String, Double> numbers) {
    for (Map.Entry<String, Double> number : numbers.entrySet()) {
      json.number(number.getKey(), number.getValue());
    }
  }
}
