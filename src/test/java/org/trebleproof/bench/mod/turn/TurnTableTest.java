package org.trebleproof.bench.mod.turn;

import static org.junit.jupiter.api.Assertions.assertArrayEquals;
import static org.junit.jupiter.api.Assertions.assertEquals;
import static org.junit.jupiter.api.Assertions.assertFalse;
import static org.junit.jupiter.api.Assertions.assertTrue;

import java.util.Arrays;
import java.util.LinkedHashMap;
import java.util.List;
import java.util.Map;
import java.util.Optional;
import java.util.OptionalDouble;
import org.junit.jupiter.api.Test;
import org.trebleproof.bench.job.Layout;
import org.trebleproof.bench.job.PlanReader;
import org.trebleproof.bench.mod.guitar.SignalChain;
import org.trebleproof.bench.mod.guitar.TypedGuitars;
import org.trebleproof.bench.mod.guitar.WiredCircuit;
import org.trebleproof.circuit.Circuit;
import org.trebleproof.circuit.Probe;

/** What a guitar takes along to be turned elsewhere. */
class TurnTableTest {
  private static final String WIRING =
      "volume=250k,tone=250k,toneCapacitor=22n,cable=500p,input=1M";

  private static TurnableGuitar changed(SignalChain chain, String changes) {
    SignalChain both =
        chain.with("then", chain.layout(Optional.empty()), PlanReader.parsed(List.of(changes)));
    return TurnTable.of(both, both.layout(Optional.empty()), both.layouts().get("then"));
  }

  private static TurnControl control(TurnableGuitar guitar, String key) {
    return guitar.controls().stream().filter(c -> c.key().equals(key)).findFirst().orElseThrow();
  }

  private static Stop at(TurnableGuitar guitar, TurnSettings settings, String key) {
    return control(guitar, key).stops().get(settings.values().get(key).intValue());
  }

  @Test
  void partsToBuyAreStopsAndOthersAreAddedInOrder() {
    TurnableGuitar guitar =
        changed(TypedGuitars.single(WIRING), "volume=500k,tone=330k 5%,toneRotation=0.4");
    assertEquals("250k", at(guitar, guitar.before(), "volume").label());
    assertEquals("500k", at(guitar, guitar.after(), "volume").label());
    assertEquals("330k \u00b15 %", at(guitar, guitar.after(), "tone").label());
    assertEquals(
        List.of("100k", "250k", "300k", "330k \u00b15 %", "500k", "1M", "2M"),
        control(guitar, "tone").stops().stream().map(Stop::label).toList());
    assertEquals(1, guitar.before().values().get("toneRotation"));
    assertEquals(0.4, guitar.after().values().get("toneRotation"));
    assertEquals("none", at(guitar, guitar.after(), "bleed").label());
  }

  @Test
  void aLeadIsSaidInMetresAndMayBeUnplugged() {
    TurnableGuitar guitar = changed(TypedGuitars.single(WIRING), "cable=900p,input=none");
    assertEquals("500p", at(guitar, guitar.before(), "cable").label());
    assertEquals("9 m (900p)", at(guitar, guitar.after(), "cable").label());
    assertEquals(new Stop.Nothing("nothing plugged in"), at(guitar, guitar.after(), "input"));
  }

  @Test
  void aBleedOfItsOwnIsOneOfTheBleeds() {
    TurnableGuitar guitar =
        changed(TypedGuitars.single(WIRING), "bleedCapacitor=1.2n,bleedResistor=130k");
    Stop.Bleed own = (Stop.Bleed) at(guitar, guitar.after(), "bleed");
    assertEquals("1.2n, 130k across it", own.label());
    assertEquals(1.2e-9, own.farad(), 1e-15);
    assertEquals(130e3, own.ohm().getAsDouble(), 1e-3);
    Stop.Bleed plain = (Stop.Bleed) control(guitar, "bleed").stops().get(2);
    assertEquals(OptionalDouble.empty(), plain.ohm());
  }

  @Test
  void ofTwoPickupsEachWiringCanBePicked() {
    TurnableGuitar guitar = changed(TypedGuitars.single(WIRING), "volume=500k");
    assertEquals(
        List.of(
            "pickup",
            "neck",
            "pickup and neck in parallel",
            "pickup and neck in series",
            "pickup and neck in parallel, out of phase"),
        control(guitar, TurnControl.WIRING).stops().stream().map(Stop::label).toList());
    assertEquals(5, guitar.circuits().size());
  }

  /**
   * The netlist that is taken along, with its controls put where they stand, is the layout's own.
   */
  @Test
  void theNetlistIsThePrograms() {
    SignalChain chain = TypedGuitars.single(WIRING);
    SignalChain both =
        chain.with(
            "then",
            chain.layout(Optional.empty()),
            PlanReader.parsed(List.of("volumeRotation=0.7,toneRotation=0.3,volumeCentre=0.2")));
    Layout then = both.layouts().get("then");
    TurnableGuitar guitar = TurnTable.of(both, then, then);
    Circuit circuit = guitar.circuits().get(0).get(0);
    TurnableGuitar.Values values = guitar.models().get(0);
    Map<String, Double> turned =
        Map.of(
            "volume", 250e3,
            "tone", 250e3,
            "toneCapacitor", 22e-9,
            "cable", 500e-12,
            "input", 1e6,
            "volumeRotation", odds(then.turned(org.trebleproof.bench.job.Slot.VOLUME).share()),
            "toneRotation", odds(0.3));
    double[] set =
        circuit.parameters().stream()
            .mapToDouble(
                p ->
                    p.startsWith(TurnableGuitar.TURNED)
                        ? turned.get(p.substring(TurnableGuitar.TURNED.length()))
                        : values.centre()[values.names().indexOf(p)])
            .toArray();
    double[] hz = {100, 1000, 3000, 5000, 12000};
    var there = circuit.evaluate(hz, set, Probe.EMF_TO_JACK);
    double[] here = WiredCircuit.of(both, then).powers(both.knowledge().logMean(), hz);
    double[] power = new double[hz.length];
    for (int i = 0; i < hz.length; i++) {
      power[i] = there.re()[i] * there.re()[i] + there.im()[i] * there.im()[i];
    }
    assertArrayEquals(here, power, 1e-9);
  }

  private static double odds(double share) {
    return share / (1 - share);
  }

  @Test
  void randomGuitarsScatterAsTheMarkingsSay() {
    TurnableGuitar.Values values =
        changed(TypedGuitars.single(WIRING), "volume=500k").models().get(0);
    assertEquals(200, values.draws().length);
    int inductance =
        values
            .names()
            .indexOf(
                values.names().stream()
                    .filter(n -> n.startsWith("pickup.") && n.endsWith("nductance"))
                    .findFirst()
                    .orElseThrow());
    double[] logs =
        Arrays.stream(values.draws())
            .mapToDouble(d -> Math.log(d[inductance] / values.centre()[inductance]))
            .toArray();
    double sd = Math.sqrt(Arrays.stream(logs).map(x -> x * x).average().orElseThrow());
    // A tolerance of 10 % is two standard deviations; 200 draws know theirs to 5 %.
    assertEquals(0.051, sd, 0.012);
    assertFalse(values.names().stream().anyMatch(n -> n.startsWith(TurnableGuitar.TURNED)));
  }

  @Test
  void sayingsAreSetUpOnBothSides() {
    TurnableGuitar guitar = changed(TypedGuitars.single(WIRING), "volume=500k");
    TriedSaying megohm = guitar.sayings().get(0);
    assertEquals("Above a megohm nothing more is heard", megohm.saying());
    assertEquals("1M", at(guitar, moved(guitar.before(), megohm.before()), "volume").label());
    assertEquals("2M", at(guitar, moved(guitar.before(), megohm.after()), "tone").label());
    assertTrue(megohm.answer().contains(" dB"), megohm.answer());
    TriedSaying ohms =
        guitar.sayings().stream().filter(s -> !s.factors().isEmpty()).findFirst().orElseThrow();
    assertEquals(Map.of("pickup.resistance", 1.2), ohms.factors());
    assertTrue(ohms.answer().contains("not to be heard"), ohms.answer());
  }

  private static TurnSettings moved(TurnSettings settings, Map<String, Double> some) {
    Map<String, Double> all = new LinkedHashMap<>(settings.values());
    all.putAll(some);
    return new TurnSettings(all);
  }
}
