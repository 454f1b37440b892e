package org.trebleproof.report.words;

import java.util.ArrayList;
import java.util.List;
import java.util.Locale;
import java.util.Optional;
import org.trebleproof.bench.answer.FitResult;
import org.trebleproof.bench.answer.Rows;
import org.trebleproof.bench.job.Job;
import org.trebleproof.bench.job.Setup;
import org.trebleproof.bench.job.Slot;
import org.trebleproof.quantity.Estimate;
import org.trebleproof.quantity.EstimateText;
import org.trebleproof.quantity.Finding;
import org.trebleproof.quantity.FindingCode;
import org.trebleproof.quantity.Known;
import org.trebleproof.quantity.Quantity;
import org.trebleproof.quantity.RowKey;
import org.trebleproof.quantity.Subject;

/** The one sentence that a customer takes home. */
public final class Headline {

  /** Where the ear is most sensitive and where a guitar's resonance usually stands [Hz]. */
  private static final double EAR_HZ = 4000;

  /** "As it was" means within this, a tenth of a 250k pot [S]. */
  private static final double TELLING_SIEMENS = 0.4e-6;

  /** "Less than" a difference means less than a step that most people hear [dB]. */
  private static final double TELLING_DECIBEL = 1;

  /** Residuals no larger than this many times the noise: the model describes the captures. */
  private static final double GOOD_CHI_SQUARE = 2;

  private final FitResult result;

  private Headline(FitResult result) {
    this.result = result;
  }

  /** The sentence, or for a refused job the reason. */
  public static String of(FitResult result) {
    Headline headline = new Headline(result);
    if (result.verdict().refused()) {
      return headline.refusal();
    }
    if (result.difference().isPresent() || headline.loadChange().isPresent()) {
      String change = headline.change();
      if (!change.isEmpty()) {
        return change;
      }
    }
    return headline.measured();
  }

  /** The sentence about the coil and its resonance, whatever changed between setups. */
  public static String ofFit(FitResult result) {
    Headline headline = new Headline(result);
    return result.verdict().refused() ? headline.refusal() : headline.measured();
  }

  private String refusal() {
    Finding cause = result.verdict().cause().orElseThrow();
    return (cause.code() == FindingCode.SLIP_LIKELY ? "" : "No verdict: ") + cause.text();
  }

  private String change() {
    Optional<String> load = loadClause();
    // What the markings say alone is no news: the level, which was measured, leads.
    boolean assumed = loadChange().filter(g -> g.known() == Known.ASSUMED).isPresent();
    Optional<String> level = result.difference().flatMap(this::levelSentence);
    if (load.isEmpty() || assumed && level.isPresent()) {
      return level.map(s -> predicted(s + (assumed ? changedParts() : "") + ".")).orElse("");
    }
    List<String> clauses = new ArrayList<>(List.of(load.get()));
    result.difference().flatMap(Headline::levelClause).ifPresent(clauses::add);
    if (coilUnchanged()) {
      clauses.add("the coil is unchanged");
    }
    return predicted(subject() + " " + String.join("; ", clauses) + ".");
  }

  /** What was never recorded is said to be predicted before anything else. */
  private String predicted(String sentence) {
    List<String> missing =
        result.job().unrecorded().stream()
            .filter(
                name ->
                    setup(true).filter(s -> s.name().equals(name)).isPresent()
                        || setup(false).filter(s -> s.name().equals(name)).isPresent())
            .toList();
    if (missing.isEmpty()) {
      return sentence;
    }
    return "Predicted, as \""
        + String.join("\" and \"", missing)
        + "\" was not recorded: "
        + Character.toLowerCase(sentence.charAt(0))
        + sentence.substring(1);
  }

  private Optional<String> loadClause() {
    Optional<Estimate> conductance = loadChange();
    if (conductance.isEmpty()) {
      return Optional.empty();
    }
    Estimate g = conductance.get();
    if (!g.contains(0)) {
      return Optional.of(
          "changed the load's conductance by " + EstimateText.full(g) + changedParts());
    }
    if (widest(g).high() > TELLING_SIEMENS) {
      return Optional.of(
          "changed the load's conductance by "
              + EstimateText.full(g)
              + ", which may be nothing"
              + changedParts());
    }
    Optional<String> capacitance = capacitanceClause();
    if (capacitance.isPresent()) {
      return capacitance;
    }
    return Optional.of(
        "left the load's conductance as it was, within "
            + EstimateText.full(widest(g)).replace("0 ±", "±")
            + changedParts());
  }

  /** Where nothing but the capacitance changed, as with another cable. */
  private Optional<String> capacitanceClause() {
    Optional<Estimate> from = setup(true).flatMap(this::totalCapacitance);
    Optional<Estimate> to = setup(false).flatMap(this::totalCapacitance);
    if (from.isEmpty() || to.isEmpty()) {
      return Optional.empty();
    }
    boolean apart = from.get().high() < to.get().low() || to.get().high() < from.get().low();
    if (!apart) {
      return Optional.empty();
    }
    return Optional.of(
        "took the total capacitance from "
            + EstimateText.full(from.get())
            + " to "
            + EstimateText.full(to.get()));
  }

  private static Estimate widest(Estimate g) {
    double half = Math.max(Math.abs(g.low()), Math.abs(g.high()));
    return new Estimate(0, -half, half, g.unit(), g.known());
  }

  private String changedParts() {
    Optional<Setup> from = setup(true);
    Optional<Setup> to = setup(false);
    if (from.isEmpty() || to.isEmpty()) {
      return "";
    }
    List<String> parts = new ArrayList<>();
    addChange(parts, "volume pot", pot(from.get().volume()), pot(to.get().volume()));
    addChange(parts, "tone pot", pot(from.get().tone()), pot(to.get().tone()));
    addChange(parts, "tone capacitor", from.get().toneCapacitor(), to.get().toneCapacitor());
    addChange(parts, "cable", from.get().cable(), to.get().cable());
    for (Slot slot : Slot.values()) {
      addChange(parts, slot.noun(), extra(from.get(), slot), extra(to.get(), slot));
    }
    addChange(
        parts,
        "second pickup",
        from.get().extras().secondPickup(),
        to.get().extras().secondPickup());
    return parts.isEmpty() ? "" : " (" + String.join(", ", parts) + ")";
  }

  private static Optional<String> extra(Setup setup, Slot slot) {
    return Optional.ofNullable(setup.extras().parts().get(slot));
  }

  private void addChange(
      List<String> parts, String role, Optional<String> from, Optional<String> to) {
    if (from.equals(to)) {
      return;
    }
    if (from.isEmpty()) {
      parts.add(role + " added");
    } else if (to.isEmpty()) {
      parts.add(role + " taken out");
    } else {
      String values = values(from.get(), to.get());
      if (!values.isEmpty()) {
        parts.add(role + " " + values);
      }
    }
  }

  private String values(String from, String to) {
    Optional<Estimate> old = result.rows().part(from).first();
    Optional<Estimate> fresh = result.rows().part(to).first();
    if (old.isEmpty() || fresh.isEmpty()) {
      return "";
    }
    return valued(old.get()) + " → " + valued(fresh.get());
  }

  private static String valued(Estimate estimate) {
    String text = EstimateText.full(estimate);
    return estimate.known() == Known.ASSUMED ? text + " assumed" : text;
  }

  private static Optional<String> levelClause(FitResult.DifferenceCurve curve) {
    return CurveReading.at(curve, EAR_HZ)
        .map(
            d ->
                open(d)
                    ? "the difference at 4 kHz, " + EstimateText.full(d) + ", is not settled"
                    : "at 4 kHz that " + effect(d));
  }

  /** The same as a sentence of its own, without its full stop. */
  private Optional<String> levelSentence(FitResult.DifferenceCurve curve) {
    String subject = subject();
    String who = Character.toLowerCase(subject.charAt(0)) + subject.substring(1);
    return CurveReading.at(curve, EAR_HZ)
        .map(
            d ->
                open(d)
                    ? "From "
                        + curve.from()
                        + " to "
                        + curve.to()
                        + " the level at 4 kHz changes by "
                        + EstimateText.full(d)
                        + ", so even its sign is open"
                    : "At 4 kHz " + who + " " + effect(d));
  }

  private static boolean open(Estimate d) {
    return d.contains(0) && Math.max(Math.abs(d.low()), Math.abs(d.high())) > TELLING_DECIBEL;
  }

  private static String effect(Estimate d) {
    if (d.contains(0)) {
      double half = Math.max(Math.abs(d.low()), Math.abs(d.high()));
      String bound = String.format(Locale.ROOT, "%.2f dB", Math.ceil(100 * half) / 100);
      return "makes less than " + bound + " of difference";
    }
    if (d.value() > 0) {
      return "gives back " + EstimateText.full(d);
    }
    Estimate loss = new Estimate(-d.value(), -d.high(), -d.low(), d.unit(), d.known());
    return "takes away " + EstimateText.full(loss);
  }

  private boolean coilUnchanged() {
    Optional<Setup> from = setup(true);
    Optional<Setup> to = setup(false);
    return from.isPresent()
        && to.isPresent()
        && from.get().pickup().equals(to.get().pickup())
        && !result.job().unrecorded().contains(from.get().name())
        && !result.job().unrecorded().contains(to.get().name())
        && settled(result.rows().coil(from.get().pickup()), Quantity.INDUCTANCE).isPresent()
        && result.model().isPresent()
        && result.model().get().reducedChiSquare() < GOOD_CHI_SQUARE
        && result.verdict().stands();
  }

  private String subject() {
    Optional<Setup> from = setup(true);
    Optional<Setup> to = setup(false);
    if (from.isEmpty() || to.isEmpty()) {
      return "The change";
    }
    List<String> changes = new ArrayList<>();
    if (!from.get().pickup().equals(to.get().pickup())) {
      changes.add("The pickup swap");
    }
    boolean volume = !pot(from.get().volume()).equals(pot(to.get().volume()));
    boolean tone = !pot(from.get().tone()).equals(pot(to.get().tone()));
    if (volume || tone) {
      changes.add("The pot swap");
    }
    if (!from.get().toneCapacitor().equals(to.get().toneCapacitor())) {
      changes.add("The capacitor swap");
    }
    if (!from.get().cable().equals(to.get().cable())) {
      changes.add("The other cable");
    }
    return changes.size() == 1
        ? changes.get(0)
        : "The change from " + from.get().name() + " to " + to.get().name();
  }

  private String measured() {
    List<String> clauses = new ArrayList<>();
    for (Subject coil : result.rows().coils()) {
      Rows rows = result.rows().about(coil);
      List<String> values =
          KeyQuantities.COIL.stream()
              .flatMap(q -> settled(rows, q).stream())
              .map(Headline::valued)
              .toList();
      if (!values.isEmpty()) {
        String subject = coil.words().equals(coil.name()) ? coil.name() : "the coil";
        clauses.add(subject + " measures " + joined(values));
      }
    }
    for (String setup : result.job().setups().keySet()) {
      Rows rows = result.rows().setup(setup);
      Optional<Estimate> resonance = settled(rows, Quantity.RESONANCE);
      if (resonance.isPresent()) {
        String peak =
            settled(rows, Quantity.RESONANCE_PEAK)
                .map(e -> ", " + EstimateText.full(e) + " high")
                .orElse("");
        clauses.add(setup + resonates(setup) + EstimateText.full(resonance.get()) + peak);
      }
    }
    if (clauses.isEmpty()) {
      return "These captures do not settle any value; the findings say why.";
    }
    String sentence = String.join("; ", clauses);
    return Character.toUpperCase(sentence.charAt(0)) + sentence.substring(1) + ".";
  }

  private String resonates(String setup) {
    return result.job().unrecorded().contains(setup)
        ? ", which was not recorded, would resonate at "
        : " resonates at ";
  }

  private static String joined(List<String> words) {
    if (words.size() == 1) {
      return words.get(0);
    }
    int last = words.size() - 1;
    return String.join(", ", words.subList(0, last)) + " and " + words.get(last);
  }

  /** An estimate that the recordings settle. */
  private static Optional<Estimate> settled(Rows rows, Quantity quantity) {
    return rows.estimate(quantity).filter(e -> e.known() != Known.ASSUMED);
  }

  private Optional<Estimate> loadChange() {
    return result.rows().estimate(RowKey.LOAD_CHANGE);
  }

  private Optional<Estimate> totalCapacitance(Setup setup) {
    return result.rows().setup(setup.name()).estimate(Quantity.TOTAL_CAPACITANCE);
  }

  private Optional<Setup> setup(boolean first) {
    Job job = result.job();
    if (result.difference().isPresent()) {
      FitResult.DifferenceCurve curve = result.difference().get();
      return Optional.ofNullable(job.setups().get(first ? curve.from() : curve.to()));
    }
    if (job.setups().size() != 2) {
      return Optional.empty();
    }
    List<Setup> setups = List.copyOf(job.setups().values());
    return Optional.of(setups.get(first ? 0 : 1));
  }

  private static Optional<String> pot(Optional<Setup.PotUse> use) {
    return use.map(Setup.PotUse::part);
  }
}
