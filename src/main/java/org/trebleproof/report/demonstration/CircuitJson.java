package org.trebleproof.report.demonstration;

import java.util.List;
import java.util.Optional;
import org.trebleproof.bench.mod.turn.TurnControl;
import org.trebleproof.bench.mod.turn.TurnableGuitar;
import org.trebleproof.circuit.Circuit;
import org.trebleproof.circuit.Element;
import org.trebleproof.circuit.Inductance;
import org.trebleproof.circuit.Winding;
import org.trebleproof.json.JsonWriter;

/** A netlist, element by element, as the page's script reads it. */
final class CircuitJson {
  private static final String VOLUME = TurnableGuitar.TURNED + "volume" + TurnControl.ROTATION;

  private final JsonWriter json;

  CircuitJson(JsonWriter json) {
    this.json = json;
  }

  void write(Circuit circuit) {
    int nodes =
        circuit.elements().stream()
            .flatMap(e -> e.nodes().stream())
            .mapToInt(n -> n)
            .max()
            .orElseThrow();
    json.object();
    json.number("nodes", nodes);
    json.number("jack", circuit.jack());
    json.array("elements");
    for (Element element : circuit.elements()) {
      write(element);
    }
    json.end();
    json.end();
  }

  private void write(Element element) {
    if (element instanceof Element.Resistor r) {
      open("resistor", r.from(), r.to());
      json.text("resistance", r.resistance());
      json.number("share", r.share());
    } else if (element instanceof Element.WiperResistor w) {
      open("wiper", w.from(), w.to());
      json.text("resistance", w.resistance());
      json.text("odds", w.odds());
      json.flag("above", w.above());
      if (w.above() && w.odds().equals(VOLUME)) {
        json.end();
        open(TurnControl.BLEED, w.from(), w.to());
        json.text("bleed", TurnableGuitar.TURNED + TurnControl.BLEED);
      }
    } else if (element instanceof Element.Capacitor c) {
      open("capacitor", c.from(), c.to());
      json.text("capacitance", c.capacitance());
    } else if (element instanceof Element.LossyCapacitor c) {
      open("lossyCapacitor", c.from(), c.to());
      json.text("capacitance", c.capacitance());
      json.text("lossTangent", c.lossTangent());
      json.flag("constantPhase", c.constantPhase());
    } else if (element instanceof Element.ResistorCapacitor rc) {
      open("resistorCapacitor", rc.from(), rc.to());
      json.text("resistance", rc.resistance());
      json.number("share", rc.share());
      json.text("capacitance", rc.capacitance());
    } else if (element instanceof Element.Coil coil) {
      open("coil", coil.from(), coil.to());
      coil(coil);
    } else if (element instanceof Element.CoupledCoils pair) {
      json.object();
      json.text("kind", "coupledCoils");
      pair(pair);
    } else {
      throw new IllegalStateException("no place in a page for " + element);
    }
    json.end();
  }

  private void open(String kind, int from, int to) {
    json.object();
    json.text("kind", kind);
    ends(from, to);
  }

  private void ends(int from, int to) {
    json.number("from", from);
    json.number("to", to);
  }

  private void coil(Element.Coil coil) {
    json.number("emf", coil.emfShare());
    json.key("winding");
    winding(coil.winding());
  }

  private void pair(Element.CoupledCoils pair) {
    for (Element.Coil coil : List.of(pair.first(), pair.second())) {
      json.object(coil == pair.first() ? "first" : "second");
      ends(coil.from(), coil.to());
      coil(coil);
      json.end();
    }
    json.text("couplingOdds", pair.couplingOdds());
    optional("inducedOdds", pair.inducedOdds());
    if (pair.common().isPresent()) {
      json.object("common");
      json.texts("factors", pair.common().get().factors());
      numbers("times", pair.common().get().times());
      json.end();
    }
  }

  private void winding(Winding winding) {
    json.object();
    optional("resistance", winding.resistance());
    json.array("inductances");
    for (Inductance part : winding.inductances()) {
      json.object();
      json.text("kind", part.as(new Kind()));
      json.texts("parameters", part.parameters());
      if (part instanceof Inductance.Departure departure) {
        numbers("times", departure.times());
      }
      json.end();
    }
    json.end();
    json.end();
  }

  /** What the page's script calls a kind of inductance. */
  private static final class Kind implements Inductance.Kinds<String> {
    @Override
    public String plain(Inductance.Plain part) {
      return "plain";
    }

    @Override
    public String lossResistor(Inductance.LossResistor part) {
      return "lossResistor";
    }

    @Override
    public String split(Inductance.Split part) {
      return "split";
    }

    @Override
    public String solidCore(Inductance.SolidCore part) {
      return "solidCore";
    }

    @Override
    public String departure(Inductance.Departure part) {
      return "departure";
    }
  }

  private void optional(String field, Optional<String> text) {
    if (text.isPresent()) {
      json.text(field, text.get());
    }
  }

  private void numbers(String field, List<Double> numbers) {
    json.array(field);
    for (double number : numbers) {
      json.number(number);
    }
    json.end();
  }
}
