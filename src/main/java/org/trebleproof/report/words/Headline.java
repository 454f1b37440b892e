package org.trebleproof.report.words;

import java.util.ArrayList;
import java.util.List;
import java.util.Locale;
import java.util.Optional;
import org.trebleproof.bench.answer.ChangeShare;
import org.trebleproof.bench.answer.FitResult;
import org.trebleproof.bench.answer.Rows;
import org.trebleproof.bench.job.Job;
import org.trebleproof.bench.job.Layout;
import org.trebleproof.bench.job.Setup;
import org.trebleproof.bench.job.WiringChange;
import org.trebleproof.bench.mod.predict.HeardChange;
import org.trebleproof.quantity.Estimate;
import org.trebleproof.quantity.EstimateText;
import org.trebleproof.quantity.Finding;
import org.trebleproof.quantity.FindingCode;
import org.trebleproof.quantity.Known;
import org.trebleproof.quantity.Quantity;
import org.trebleproof.quantity.Subject;

/** The one sentence that a customer takes home. */
public final class Headline {

  /** "Less than" a difference means less than a step that most people hear [dB]. */
  private static final double TELLING_DECIBEL = 1;

  /** What changes by no more than this does not change [dB]. */
  private static final double NOTHING_DECIBEL = 0.1;

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
    List<FitResult> pairs = result.pairs();
    if (pairs.size() > 1) {
      return String.join(" ", pairs.stream().map(Headline::inTurn).toList());
    }
    String change = headline.change();
    return change.isEmpty() ? headline.measured() : change;
  }

  /** What one of several setups does that are held against the first. */
  private static String inTurn(FitResult pair) {
    Headline headline = new Headline(pair);
    return quoted(headline.setup(true))
        + " to "
        + quoted(headline.setup(false))
        + ": "
        + headline.change();
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
    Optional<HeardChange> heard = HeardChange.of(result);
    Optional<Setup> from = setup(true);
    Optional<Setup> to = setup(false);
    if (heard.isEmpty() || from.isEmpty() || to.isEmpty()) {
      return "";
    }
    List<WiringChange> changes =
        result.changes().isEmpty()
            ? WiringChange.between(from.get(), to.get())
            : result.changes().stream().map(ChangeShare::change).toList();
    ChangeWords words = new ChangeWords(result);
    boolean otherCoil = changes.stream().anyMatch(c -> c.thing() == WiringChange.Thing.PICKUP);
    String effect =
        effect(heard.get())
            + shares()
            + (coilUnchanged() ? "; " + coil() : "")
            + (otherCoil ? "; which pickup is louder, a sweep does not tell" : "")
            + ".";
    if (changes.isEmpty()) {
      return predicted(
          "Going from "
              + quoted(from)
              + " to "
              + quoted(to)
              + " "
              + effect
              + " No part is named that differs between them.");
    }
    String subject =
        changes.size() == 1
            ? ChangeWords.subject(changes.get(0))
            : "what was changed from " + quoted(from) + " to " + quoted(to);
    if (changes.stream().noneMatch(words::valued)) {
      boolean coilFree = result.difference().orElseThrow().coilFree();
      return predicted(
          Sentence.of(subject + " " + effect)
              + (coilFree ? " This is measured without a coil model;" : "")
              + " what the parts read cannot be said.");
    }
    String clauses = Sentence.of(String.join("; ", changes.stream().map(words::clause).toList()));
    return predicted(
        changes.stream().anyMatch(words::told)
            ? clauses + (changes.size() == 1 ? " That " : " Together that ") + effect
            : Sentence.of(subject + " " + effect) + " " + words.untold(changes));
  }

  /** What each of several changes does, the largest first. */
  private String shares() {
    return result.changes().isEmpty()
        ? ""
        : " ("
            + String.join(
                ", ",
                result.changes().stream()
                    .map(
                        s ->
                            ChangeWords.subject(s.change())
                                + (s.level().value() < 0 ? " " : " +")
                                + EstimateText.full(s.level()))
                    .toList())
            + ")";
  }

  private static String quoted(Optional<Setup> setup) {
    return "\"" + setup.orElseThrow().name() + "\"";
  }

  /** What the ear gets: the largest change, at its place, and whether it is heard. */
  private static String effect(HeardChange heard) {
    HeardChange.Point most = heard.most();
    if (most.sure() && heard.within() > NOTHING_DECIBEL) {
      return moved(most)
          + heard.contrary().map(p -> " and " + moved(p)).orElse("")
          + ", "
          + heard.audibility().verdict().words();
    }
    if (heard.within() > TELLING_DECIBEL) {
      return "changes the level by "
          + EstimateText.full(most.change())
          + " at "
          + Place.of(most.hz())
          + ", so it may be up or down";
    }
    return String.format(
            Locale.ROOT,
            "changes the level nowhere by more than %.2f dB",
            Math.ceil(100 * heard.within()) / 100)
        + ", "
        + heard.audibility().verdict().words();
  }

  private static String moved(HeardChange.Point point) {
    Estimate d = point.change();
    boolean more = d.value() > 0;
    Estimate size = more ? d : new Estimate(-d.value(), -d.high(), -d.low(), d.unit(), d.known());
    return (more ? "gives back " : "takes away ")
        + EstimateText.full(size)
        + " at "
        + Place.of(point.hz());
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

  private static String valued(Estimate estimate) {
    String text = EstimateText.full(estimate);
    return estimate.known() == Known.ASSUMED ? text + " assumed" : text;
  }

  private boolean coilUnchanged() {
    Optional<Setup> from = setup(true);
    Optional<Setup> to = setup(false);
    return from.isPresent()
        && to.isPresent()
        && Layout.of(from.get()).pickups().equals(Layout.of(to.get()).pickups())
        && !result.job().unrecorded().contains(from.get().name())
        && !result.job().unrecorded().contains(to.get().name())
        && Layout.of(from.get()).pickups().stream()
            .allMatch(p -> settled(result.rows().coil(p), Quantity.INDUCTANCE).isPresent())
        && result.model().isPresent()
        && result.model().get().reducedChiSquare() < GOOD_CHI_SQUARE
        && result.verdict().stands();
  }

  private String coil() {
    int pickups = Layout.of(setup(true).orElseThrow()).pickups().size();
    return pickups > 1 ? "the coils are unchanged" : "the coil is unchanged";
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
        clauses.add(subject + " measures " + Sentence.listed(values));
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

  /** An estimate that the recordings settle. */
  private static Optional<Estimate> settled(Rows rows, Quantity quantity) {
    return rows.estimate(quantity).filter(e -> e.known() != Known.ASSUMED);
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
}
