package org.trebleproof.report.demonstration;

import com.fasterxml.jackson.core.JsonGenerator;
import java.io.IOException;
import java.util.List;
import java.util.Optional;
import org.trebleproof.bench.mod.turn.TurnControl;
import org.trebleproof.bench.mod.turn.TurnableGuitar;
import org.trebleproof.circuit.Circuit;
import org.trebleproof.circuit.Element;
import org.trebleproof.circuit.Inductance;
import org.trebleproof.circuit.Winding;

/** A netlist, element by element, as the page's script reads it. */
final class CircuitJson {
  private static final String VOLUME = TurnableGuitar.TURNED + "volume" + TurnControl.ROTATION;

  private final JsonGenerator json;

  CircuitJson(JsonGenerator json) {
    this.json = json;
  }

  void write(Circuit circuit) throws IOException {
    int nodes =
        circuit.elements().stream()
            .flatMap(e -> e.nodes().stream())
            .mapToInt(n -> n)
            .max()
            .orElseThrow();
    json.writeStartObject();
    json.writeNumberField("nodes", nodes);
    json.writeNumberField("jack", circuit.jack());
    json.writeArrayFieldStart("elements");
    for (Element element : circuit.elements()) {
      write(element);
    }
    json.writeEndArray();
    json.writeEndObject();
  }

  private void write(Element element) throws IOException {
    if (element instanceof Element.Resistor r) {
      open("resistor", r.from(), r.to());
      json.writeStringField("resistance", r.resistance());
      json.writeNumberField("share", r.share());
    } else if (element instanceof Element.WiperResistor w) {
      open("wiper", w.from(), w.to());
      json.writeStringField("resistance", w.resistance());
      json.writeStringField("odds", w.odds());
      json.writeBooleanField("above", w.above());
      if (w.above() && w.odds().equals(VOLUME)) {
        json.writeEndObject();
        open(TurnControl.BLEED, w.from(), w.to());
        json.writeStringField("bleed", TurnableGuitar.TURNED + TurnControl.BLEED);
      }
    } else if (element instanceof Element.Capacitor c) {
      open("capacitor", c.from(), c.to());
      json.writeStringField("capacitance", c.capacitance());
    } else if (element instanceof Element.LossyCapacitor c) {
      open("lossyCapacitor", c.from(), c.to());
      json.writeStringField("capacitance", c.capacitance());
      json.writeStringField("lossTangent", c.lossTangent());
      json.writeBooleanField("constantPhase", c.constantPhase());
    } else if (element instanceof Element.ResistorCapacitor rc) {
      open("resistorCapacitor", rc.from(), rc.to());
      json.writeStringField("resistance", rc.resistance());
      json.writeNumberField("share", rc.share());
      json.writeStringField("capacitance", rc.capacitance());
    } else if (element instanceof Element.Coil coil) {
      open("coil", coil.from(), coil.to());
      coil(coil);
    } else if (element instanceof Element.CoupledCoils pair) {
      json.writeStartObject();
      json.writeStringField("kind", "coupledCoils");
      pair(pair);
    } else {
      throw new IllegalStateException("no place in a page for " + element);
    }
    json.writeEndObject();
  }

  private void open(String kind, int from, int to) throws IOException {
    json.writeStartObject();
    json.writeStringField("kind", kind);
    ends(from, to);
  }

  private void ends(int from, int to) throws IOException {
    json.writeNumberField("from", from);
    json.writeNumberField("to", to);
  }

  private void coil(Element.Coil coil) throws IOException {
    json.writeNumberField("emf", coil.emfShare());
    json.writeFieldName("winding");
    winding(coil.winding());
  }

  private void pair(Element.CoupledCoils pair) throws IOException {
    for (Element.Coil coil : List.of(pair.first(), pair.second())) {
      json.writeObjectFieldStart(coil == pair.first() ? "first" : "second");
      ends(coil.from(), coil.to());
      coil(coil);
      json.writeEndObject();
    }
    json.writeStringField("couplingOdds", pair.couplingOdds());
    optional("inducedOdds", pair.inducedOdds());
    if (pair.common().isPresent()) {
      json.writeObjectFieldStart("common");
      texts("factors", pair.common().get().factors());
      numbers("times", pair.common().get().times());
      json.writeEndObject();
    }
  }

  private void winding(Winding winding) throws IOException {
    json.writeStartObject();
    optional("resistance", winding.resistance());
    json.writeArrayFieldStart("inductances");
    for (Inductance part : winding.inductances()) {
      json.writeStartObject();
      json.writeStringField("kind", kind(part));
      texts("parameters", part.parameters());
      if (part instanceof Inductance.Departure departure) {
        numbers("times", departure.times());
      }
      json.writeEndObject();
    }
    json.writeEndArray();
    json.writeEndObject();
  }

  private static String kind(Inductance part) {
    if (part instanceof Inductance.Plain) {
      return "plain";
    } else if (part instanceof Inductance.LossResistor) {
      return "lossResistor";
    } else if (part instanceof Inductance.Split) {
      return "split";
    } else if (part instanceof Inductance.SolidCore) {
      return "solidCore";
    }
    return "departure";
  }

  private void optional(String field, Optional<String> text) throws IOException {
    if (text.isPresent()) {
      json.writeStringField(field, text.get());
    }
  }

  private void texts(String field, List<String> texts) throws IOException {
    json.writeArrayFieldStart(field);
    for (String text : texts) {
      json.writeString(text);
    }
    json.writeEndArray();
  }

  private void numbers(String field, List<Double> numbers) throws IOException {
    json.writeArrayFieldStart(field);
    for (double number : numbers) {
      json.writeNumber(number);
    }
    json.writeEndArray();
  }
}
