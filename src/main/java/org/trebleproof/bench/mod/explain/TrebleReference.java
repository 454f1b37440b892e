package org.trebleproof.bench.mod.explain;

import java.util.LinkedHashMap;
import java.util.LinkedHashSet;
import java.util.Map;
import java.util.Optional;
import java.util.Set;
import org.trebleproof.bench.job.Layout;
import org.trebleproof.bench.job.LeadName;
import org.trebleproof.bench.job.OwnName;
import org.trebleproof.bench.job.Slot;
import org.trebleproof.bench.mod.guitar.SignalChain;
import org.trebleproof.quantity.Marking;

/**
 * What a guitar is held against when its treble is missed: the same pickup without pots, on the
 * shortest lead of the job where its setups have several, else on a short lead, into an input of 1
 * megohm. A lead shorter than the reference's counts as that, so that the reference never hangs on
 * what is held against it.
 *
 * @param chain the guitar, with the parts of the reference
 * @param lead name of the reference's lead; empty where nothing is plugged in
 * @param words such as {@code a 2 m lead into 1M}
 */
record TrebleReference(SignalChain chain, Optional<String> lead, String words) {

  /** A lead of 2 m with 100 pF/m (common practice, no source) [F]. */
  private static final double SHORT_LEAD = 200e-12;

  /** What a good amplifier's input has (common practice, no source) [ohm]. */
  private static final double GOOD_INPUT = 1e6;

  /** What hangs on such an input at most before it tells (common practice, no source) [F]. */
  private static final double INPUT_CAPACITANCE = 100e-12;

  private static final String LEAD = OwnName.of("short lead");
  private static final String INPUT = OwnName.of("good input");
  private static final String CAPACITANCE = OwnName.of("good input's capacitance");

  /** The reference for a wiring of a guitar. */
  static TrebleReference of(SignalChain guitar, Layout wiring) {
    Map<String, Marking> parts = new LinkedHashMap<>();
    parts.put(LEAD, new Marking(SHORT_LEAD, 0, true));
    parts.put(INPUT, new Marking(GOOD_INPUT, 0, true));
    parts.put(CAPACITANCE, new Marking(INPUT_CAPACITANCE, 0, true));
    SignalChain chain = guitar.and(parts);
    Optional<String> lead = wiring.part(Slot.CABLE).map(own -> shortest(chain).orElse(LEAD));
    String onLead =
        lead.map(
                l ->
                    l.equals(LEAD)
                        ? "a 2 m lead"
                        : LeadName.of(l)
                            .map(n -> "the " + n)
                            .orElse("the shortest lead of this job"))
            .map(l -> " on " + l)
            .orElse("");
    return new TrebleReference(
        chain,
        lead,
        "the pickup without pots"
            + onLead
            + (wiring.part(Slot.INPUT).isPresent() ? " into 1M" : ""));
  }

  /** The shortest of several leads that the setups have. */
  private static Optional<String> shortest(SignalChain chain) {
    Set<String> leads = new LinkedHashSet<>();
    chain
        .layouts()
        .forEach(
            (name, layout) -> {
              if (!OwnName.is(name)) {
                layout.part(Slot.CABLE).ifPresent(leads::add);
              }
            });
    return leads.size() < 2
        ? Optional.empty()
        : leads.stream().min((a, b) -> Double.compare(value(chain, a), value(chain, b)));
  }

  private static double value(SignalChain chain, String part) {
    int index = chain.knowledge().index(part);
    return index < 0 ? Double.POSITIVE_INFINITY : Math.exp(chain.knowledge().logMean()[index]);
  }

  /** A wiring with a lead no shorter than the reference's. */
  Layout counted(Layout wiring) {
    boolean shorter =
        lead.isPresent()
            && wiring.part(Slot.CABLE).map(own -> value(chain, own)).orElse(0.0)
                < value(chain, lead.get());
    return shorter ? wiring.with(Slot.CABLE, lead.get()) : wiring;
  }

  /** A wiring with the reference's lead. */
  Layout onLead(Layout wiring) {
    return lead.map(l -> wiring.with(Slot.CABLE, l)).orElse(wiring);
  }

  /** A wiring plugged into the reference's input. */
  Layout intoInput(Layout wiring) {
    Layout into = wiring.with(Slot.INPUT, INPUT);
    boolean small =
        wiring.part(Slot.INPUT_CAPACITANCE).map(c -> value(chain, c)).orElse(0.0)
            <= INPUT_CAPACITANCE;
    return small ? into : into.with(Slot.INPUT_CAPACITANCE, CAPACITANCE);
  }
}
