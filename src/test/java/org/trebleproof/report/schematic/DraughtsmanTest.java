package org.trebleproof.report.schematic;

import static org.junit.jupiter.api.Assertions.assertEquals;
import static org.junit.jupiter.api.Assertions.assertFalse;
import static org.junit.jupiter.api.Assertions.assertTrue;

import java.util.ArrayList;
import java.util.HashMap;
import java.util.LinkedHashMap;
import java.util.List;
import java.util.Map;
import java.util.Optional;
import java.util.TreeMap;
import java.util.TreeSet;
import org.junit.jupiter.api.Test;
import org.junit.jupiter.params.ParameterizedTest;
import org.junit.jupiter.params.provider.ValueSource;
import org.trebleproof.bench.job.Layout;
import org.trebleproof.bench.job.PlanReader;
import org.trebleproof.bench.job.Slot;
import org.trebleproof.bench.mod.guitar.SignalChain;
import org.trebleproof.bench.mod.guitar.TypedCoil;
import org.trebleproof.circuit.Circuit;
import org.trebleproof.circuit.Element;
import org.trebleproof.quantity.MarkedQuantity;
import org.trebleproof.quantity.TradeNotation;

/** What is drawn is what is calculated. */
class DraughtsmanTest {

  private static final String NOW =
      "volume=250k,volumeRotation=0.5,tone=500k,toneCapacitor=22n,cable=500p,input=1M,"
          + "inputCapacitance=80p";

  private static SignalChain guitar(String changes) {
    Map<String, TypedCoil> coils = new LinkedHashMap<>();
    for (String name : List.of("bridge", "middle", "neck")) {
      coils.put(
          name,
          new TypedCoil(
              TradeNotation.marking("2.4", MarkedQuantity.COIL_INDUCTANCE),
              TradeNotation.marking("5.7k", MarkedQuantity.PICKUP_RESISTANCE),
              TradeNotation.marking("120p", MarkedQuantity.WINDING_CAPACITANCE),
              Optional.of(TradeNotation.marking("800k", MarkedQuantity.LOSS_RESISTANCE))));
    }
    SignalChain chain = TypedCoil.guitar(coils, PlanReader.parsed(List.of(NOW)));
    return chain.with(
        "then",
        chain.layout(Optional.empty()),
        changes.isEmpty() ? Map.of() : PlanReader.parsed(List.of(changes)));
  }

  private static Schematic drawn(SignalChain chain) {
    return Draughtsman.of(
        chain.layouts().get("then"), Optional.empty(), new KnownInscriptions(chain), "then");
  }

  /**
   * Every net of the drawing, named by what hangs on it, against every node of the netlist, named
   * the same way: no wire too many, none missing. Pots stand off their stops, since the netlist
   * merges the two nodes of a pot that is full up.
   */
  @ParameterizedTest
  @ValueSource(
      strings = {
        "",
        "tonePosition=after",
        "cable=none,inputCapacitance=none",
        "loadCapacitor=470p,loadResistor=1M",
        "bleedCapacitor=1n",
        "bleedCapacitor=1n,bleedResistor=150k",
        "bleedCapacitor=1n,bleedResistor=150k,bleedStyle=series",
        "bassCapacitor=2.2n",
        "bassCapacitor=2.2n,bassPot=1M,bassPotRotation=0.5",
        "pickups=bridge+neck",
        "pickups=bridge+neck,phase=out,output=0.8,bleedCapacitor=1n",
        "pickups=bridge+neck,joint=series",
        "pickups=bridge+middle+neck,joint=series",
        "pickups=bridge+neck,secondVolume=400k,secondVolumeRotation=0.7",
        "pickups=bridge+neck,secondVolume=400k,secondVolumeRotation=0.7,secondTone=300k,"
            + "secondToneCapacitor=47n,bleedCapacitor=1n,bleedResistor=150k",
        "pickups=bridge+neck,secondVolume=400k,secondVolumeRotation=0.7,secondTone=300k,"
            + "secondToneCapacitor=47n,volumeWiring=independent,bleedCapacitor=1n",
        "pickups=bridge+neck,joint=series,secondVolume=400k,secondVolumeRotation=0.7,"
            + "secondTone=300k,secondToneCapacitor=47n,tonePosition=after",
        "pickups=bridge+middle+neck,selector=1",
        "pickups=bridge+middle+neck,selector=2,bleedCapacitor=1n,bleedResistor=150k",
        "pickups=bridge+middle+neck,selector=3",
        "pickups=bridge+middle+neck,selector=4",
        "pickups=bridge+middle+neck,selector=5"
      })
  void drawsTheNetlist(String changes) {
    SignalChain chain = guitar(changes);
    Layout layout = chain.layouts().get("then");
    assertEquals(netlist(chain, layout), drawing(drawn(chain), layout));
  }

  /** What hangs on each node of the netlist. */
  private static List<String> netlist(SignalChain chain, Layout layout) {
    Circuit circuit = layout.harness(chain.coils()::get).circuit();
    Map<Integer, TreeSet<String>> nodes = new TreeMap<>();
    for (Element element : circuit.elements()) {
      for (String parameter : element.parameters()) {
        String name = name(layout, parameter);
        element.nodes().forEach(n -> nodes.computeIfAbsent(n, k -> new TreeSet<>()).add(name));
      }
    }
    return nodes.values().stream().map(TreeSet::toString).sorted().toList();
  }

  private static String name(Layout layout, String parameter) {
    for (Map.Entry<Slot, String> part : layout.parts().entrySet()) {
      if (part.getValue().equals(parameter)) {
        return name(layout, part.getKey());
      }
    }
    return parameter.substring(0, parameter.indexOf('.'));
  }

  /** A resistor and a capacitor in series are one element of the netlist, so they get one name. */
  private static String name(Layout layout, Slot slot) {
    return switch (slot) {
      case TONE_CAPACITOR -> Slot.TONE.key();
      case SECOND_TONE_CAPACITOR -> Slot.SECOND_TONE.key();
      case BLEED_CAPACITOR -> layout.bleedInSeries() ? Slot.BLEED_RESISTOR.key() : slot.key();
      default -> slot.key();
    };
  }

  /** What hangs on each net of the drawing; all grounds are one. */
  private static List<String> drawing(Schematic drawing, Layout layout) {
    DrawnCircuit read = new DrawnCircuit(drawing);
    List<Integer> grounds = read.grounds();
    assertFalse(grounds.isEmpty(), "a ground is drawn");
    Map<Integer, TreeSet<String>> nets = new HashMap<>();
    for (Item item : drawing.items()) {
      if (item.state() == Item.State.OFF) {
        continue;
      }
      String name =
          switch (item.kind()) {
            case PART -> name(layout, item.slot().orElseThrow());
            case PICKUP -> item.name();
            default -> "";
          };
      if (!name.isEmpty()) {
        for (int net : read.netsOf(item)) {
          nets.computeIfAbsent(grounds.contains(net) ? -1 : net, k -> new TreeSet<>()).add(name);
        }
      }
    }
    // Between a part's own symbols: the netlist has one element there.
    return nets.values().stream()
        .map(TreeSet::toString)
        .filter(n -> n.contains(","))
        .sorted()
        .toList();
  }

  @Test
  void bringsTheTapToGround() {
    Schematic wired = drawn(guitar("tap=on"));
    DrawnCircuit read = new DrawnCircuit(wired);
    Item tap = wired.items().stream().filter(i -> i.name().equals("tap")).findFirst().orElseThrow();
    Bounds at = tap.symbol();
    assertTrue(read.grounds().contains(read.netAt(at.left(), at.top())), "the junction is ground");
    Schematic part = drawn(guitar("tap=on,tapResistor=3.3k"));
    DrawnCircuit again = new DrawnCircuit(part);
    List<Integer> ends = again.netsOf(DrawnCircuit.part(part, Slot.TAP_RESISTOR));
    assertEquals(2, ends.size());
    assertEquals(1, ends.stream().filter(again.grounds()::contains).count());
  }

  @ParameterizedTest
  @ValueSource(
      strings = {
        "bleedCapacitor=1n,bleedResistor=150k",
        "tap=on,tapResistor=3.3k",
        "pickups=bridge+neck,secondVolume=400k,secondTone=300k,secondToneCapacitor=47n"
      })
  void eachPartIsFoundWhereItIsDrawn(String changes) {
    Schematic drawing = drawn(guitar(changes));
    for (Item item : drawing.items()) {
      if (item.kind() == Item.Kind.PART) {
        for (Mark mark : item.marks()) {
          if (mark instanceof Mark.Box box) {
            double x = box.x() + box.width() / 2;
            double y = box.y() + box.height() / 2;
            assertEquals(item.slot(), drawing.at(x, y).orElseThrow().slot());
          } else if (mark instanceof Mark.Label label) {
            Bounds words = label.bounds();
            double x = words.left() + 4;
            assertEquals(item.slot(), drawing.at(x, words.top() + 6).orElseThrow().slot());
          }
        }
      }
    }
    assertTrue(drawing.at(drawing.width() - 1, 1).isEmpty(), "nothing in the corner");
  }

  /** Words do not lie on each other, and nothing lies outside. */
  @ParameterizedTest
  @ValueSource(
      strings = {
        "",
        "bleedCapacitor=1n,bleedResistor=150k,loadCapacitor=470p,loadResistor=1M",
        "bleedCapacitor=1n,bleedResistor=150k,bleedStyle=series,bassCapacitor=2.2n,bassPot=1M",
        "pickups=bridge+neck,secondVolume=400k,secondTone=300k,secondToneCapacitor=47n",
        "pickups=bridge+middle+neck,selector=2,bleedCapacitor=1n",
        "tap=on,tapResistor=3.3k"
      })
  void isReadable(String changes) {
    Schematic drawing = drawn(guitar(changes));
    List<Mark.Label> labels = new ArrayList<>();
    for (Item item : drawing.items()) {
      Bounds all = item.bounds();
      assertTrue(all.left() >= 0 && all.top() >= 0, () -> item.name() + " " + all);
      assertTrue(all.bottom() <= drawing.height(), () -> item.name() + " " + all);
      assertTrue(all.right() <= drawing.width() + 20, () -> item.name() + " " + all);
      item.marks().stream()
          .filter(Mark.Label.class::isInstance)
          .map(Mark.Label.class::cast)
          .forEach(labels::add);
    }
    for (Mark.Label a : labels) {
      for (Mark.Label b : labels) {
        Bounds p = a.bounds();
        Bounds q = b.bounds();
        boolean apart =
            p.right() <= q.left()
                || q.right() <= p.left()
                || p.bottom() <= q.top()
                || q.bottom() <= p.top();
        assertTrue(a == b || apart, a.text() + " lies on " + b.text());
      }
    }
  }

  @Test
  void setsOffWhatDiffers() {
    SignalChain chain = guitar("volume=500k,cable=none");
    Layout now = chain.layout(Optional.empty());
    KnownInscriptions words = new KnownInscriptions(chain);
    Schematic then = Draughtsman.of(chain.layouts().get("then"), Optional.of(now), words, "then");
    assertEquals(Item.State.CHANGED, DrawnCircuit.part(then, Slot.VOLUME).state());
    assertEquals(Item.State.PLAIN, DrawnCircuit.part(then, Slot.TONE).state());
    Schematic before = Draughtsman.of(now, Optional.of(chain.layouts().get("then")), words, "now");
    assertEquals(Item.State.CHANGED, DrawnCircuit.part(before, Slot.CABLE).state());
  }
}
