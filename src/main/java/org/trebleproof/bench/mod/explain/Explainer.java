package org.trebleproof.bench.mod.explain;

import java.util.ArrayList;
import java.util.Comparator;
import java.util.LinkedHashMap;
import java.util.LinkedHashSet;
import java.util.List;
import java.util.Map;
import java.util.Set;
import java.util.function.ToDoubleFunction;
import java.util.function.UnaryOperator;
import java.util.stream.IntStream;
import org.trebleproof.bench.job.Layout;
import org.trebleproof.bench.job.PlanReader;
import org.trebleproof.bench.job.Slot;
import org.trebleproof.bench.mod.guitar.SignalChain;
import org.trebleproof.bench.mod.guitar.WiredCircuit;
import org.trebleproof.bench.mod.listen.CurvePair;
import org.trebleproof.bench.mod.predict.Audibility;
import org.trebleproof.bench.mod.predict.Band;
import org.trebleproof.bench.mod.predict.LayoutWarnings;
import org.trebleproof.bench.mod.predict.RandomGuitars;
import org.trebleproof.bench.mod.predict.StandardPots;
import org.trebleproof.circuit.CoilParameter;
import org.trebleproof.quantity.Estimate;
import org.trebleproof.quantity.Finding;
import org.trebleproof.quantity.Known;
import org.trebleproof.quantity.Unit;

/**
 * Says where the treble went: the level in a band is compared with that of the bare coil without
 * losses, and the difference is shared out among what was added to it.
 */
public final class Explainer {
  /** Centres of the third octaves that are looked at [Hz]. */
  private static final double LOWEST_THIRD = 100;

  private static final double HIGHEST_THIRD = 10000;
  private static final double HALF_THIRD = Math.pow(10, 0.05);

  private static final double STEP = 1e-4;
  private static final long REMEDY_SEED = 4;
  private static final String COIL_LOSSES = "losses in the coil";
  private static final String SECOND_PICKUP = "second pickup and its controls";

  private final SignalChain chain;
  private final Layout layout;
  private final Band band;

  /**
   * An explanation to give.
   *
   * @param chain the guitar
   * @param layout its wiring
   * @param lowHz lower edge of the band [Hz]
   * @param highHz upper edge [Hz]; equal to the lower one for a single frequency
   */
  public Explainer(SignalChain chain, Layout layout, double lowHz, double highHz) {
    this.chain = chain;
    this.layout = layout;
    this.band = new Band(lowHz, highHz);
  }

  /** One thing that could be otherwise: its name and how the layout is without it. */
  private record Cause(String name, UnaryOperator<Layout> without) {}

  private List<Cause> causes() {
    List<Cause> all = new ArrayList<>();
    // The order only decides how they are listed.
    if (has(Slot.VOLUME)) {
      all.add(new Cause(cause(Slot.VOLUME), Explainer::withoutVolume));
    }
    if (has(Slot.SECOND_VOLUME) || has(Slot.SECOND_TONE) || layout.pickups().size() > 1) {
      all.add(new Cause(SECOND_PICKUP, Explainer::withoutSecond));
    }
    if (has(Slot.TONE)) {
      all.add(
          new Cause(
              cause(Slot.TONE),
              l -> l.with(Slot.TONE, (String) null).with(Slot.TONE_CAPACITOR, (String) null)));
    }
    if (turnedDown(Slot.VOLUME) || turnedDown(Slot.TONE)) {
      all.add(new Cause("controls not full up", l -> fullUp(fullUp(l, Slot.VOLUME), Slot.TONE)));
    }
    if (has(Slot.BLEED_CAPACITOR)) {
      all.add(new Cause(cause(Slot.BLEED_CAPACITOR), Explainer::withoutBleed));
    }
    if (has(Slot.BASS_CAPACITOR)) {
      all.add(
          new Cause(
              cause(Slot.BASS_POT),
              l -> l.with(Slot.BASS_POT, (String) null).with(Slot.BASS_CAPACITOR, (String) null)));
    }
    for (Slot load : List.of(Slot.LOAD_RESISTOR, Slot.LOAD_CAPACITOR)) {
      if (has(load)) {
        all.add(new Cause(cause(load), l -> l.with(load, (String) null)));
      }
    }
    if (has(Slot.CABLE)) {
      all.add(new Cause(cause(Slot.CABLE), l -> l.with(Slot.CABLE, (String) null)));
    }
    if (has(Slot.INPUT) || has(Slot.INPUT_CAPACITANCE)) {
      all.add(
          new Cause(
              cause(Slot.INPUT),
              l -> l.with(Slot.INPUT, (String) null).with(Slot.INPUT_CAPACITANCE, (String) null)));
    }
    return all;
  }

  private static Layout withoutBleed(Layout l) {
    return l.with(Slot.BLEED_RESISTOR, (String) null).with(Slot.BLEED_CAPACITOR, (String) null);
  }

  private static Layout withoutVolume(Layout l) {
    return withoutBleed(l).with(Slot.VOLUME, (String) null);
  }

  private static Layout withoutSecond(Layout l) {
    Layout one =
        l.with(Slot.SECOND_VOLUME, (String) null)
            .with(Slot.SECOND_TONE, (String) null)
            .with(Slot.SECOND_TONE_CAPACITOR, (String) null);
    return new Layout(
        one.pickups().subList(0, 1),
        one.parts(),
        one.pots(),
        one.toneAfterVolume(),
        one.bleedInSeries(),
        one.joint(),
        1,
        0,
        one.tapped(),
        one.independent());
  }

  private static Layout fullUp(Layout l, Slot pot) {
    return l.with(pot, new Layout.Turned(1, l.turned(pot).centreRatio()));
  }

  private boolean has(Slot slot) {
    return layout.part(slot).isPresent();
  }

  private boolean turnedDown(Slot pot) {
    return has(pot) && layout.turned(pot).rotation() < 1;
  }

  private boolean lossy() {
    return chain.coils().get(layout.pickups().get(0)).parameters().stream()
        .map(CoilParameter::role)
        .anyMatch(
            role ->
                switch (role) {
                  case LOSS_RESISTANCE, SPLIT_TIME, CORE_TIME, COVER_TIME, LOSS_TANGENT -> true;
                  default -> false;
                });
  }

  /** The wiring with every set of causes taken away, and the losses of the coil last of all. */
  private WiredCircuit[] subsets(List<Cause> causes, boolean lossy) {
    WiredCircuit[] wired = new WiredCircuit[1 << causes.size() + (lossy ? 1 : 0)];
    for (int set = 0; set < wired.length; set++) {
      Layout l = layout;
      for (int c = 0; c < causes.size(); c++) {
        if ((set >> c & 1) == 0) {
          l = causes.get(c).without().apply(l);
        }
      }
      boolean lossless = !lossy || (set >> causes.size() & 1) == 0;
      wired[set] = WiredCircuit.of(chain, l, lossless && lossy);
    }
    return wired;
  }

  private static List<String> names(List<Cause> causes, boolean lossy) {
    List<String> names = new ArrayList<>(causes.stream().map(Cause::name).toList());
    if (lossy) {
      names.add(COIL_LOSSES);
    }
    return names;
  }

  /** What each cause takes; the parts of an explanation that are quick to come by. */
  public List<Explanation.Share> shares() {
    List<Cause> causes = causes();
    boolean lossy = lossy();
    WiredCircuit[] wired = subsets(causes, lossy);
    double[] mean = chain.knowledge().logMean();
    double[] shares = shares(wired, mean);
    double[][] gradients = gradients(wired, shares.length);
    List<String> names = names(causes, lossy);
    List<Explanation.Share> all = new ArrayList<>();
    for (int c = 0; c < shares.length; c++) {
      all.add(new Explanation.Share(names.get(c), estimate(shares[c], gradients[c])));
    }
    all.sort(Comparator.comparingDouble(s -> -s.loss().value()));
    return all;
  }

  /**
   * What each cause takes at single frequencies, without intervals: to be drawn beside a curve.
   *
   * @param hz frequencies [Hz]
   */
  public List<Explanation.ShareCurve> curves(double[] hz) {
    List<Cause> causes = causes();
    boolean lossy = lossy();
    WiredCircuit[] wired = subsets(causes, lossy);
    double[] mean = chain.knowledge().logMean();
    double[][] powers = new double[wired.length][];
    for (int set = 0; set < wired.length; set++) {
      powers[set] = wired[set].powers(mean, hz);
    }
    List<String> names = names(causes, lossy);
    double[][] loss = new double[names.size()][hz.length];
    double[] effect = new double[wired.length];
    for (int i = 0; i < hz.length; i++) {
      for (int set = 0; set < wired.length; set++) {
        effect[set] = -10 * Math.log10(powers[set][i]);
      }
      double[] shares = ShapleyValues.of(effect);
      for (int c = 0; c < loss.length; c++) {
        loss[c][i] = shares[c];
      }
    }
    List<Explanation.ShareCurve> all = new ArrayList<>();
    for (int c = 0; c < loss.length; c++) {
      all.add(new Explanation.ShareCurve(names.get(c), loss[c]));
    }
    return all;
  }

  /** The cause that a part belongs to, by the name that it has in an explanation. */
  public static String cause(Slot slot) {
    return switch (slot) {
      case TONE, TONE_CAPACITOR -> "tone circuit";
      case BLEED_CAPACITOR, BLEED_RESISTOR -> "treble bleed";
      case BASS_CAPACITOR, BASS_POT -> "bass cut";
      case INPUT, INPUT_CAPACITANCE -> "amplifier or recorder input";
      case SECOND_VOLUME, SECOND_TONE, SECOND_TONE_CAPACITOR -> SECOND_PICKUP;
      case TAP_RESISTOR -> COIL_LOSSES;
      default -> slot.noun();
    };
  }

  /** The cause that a pickup stands for, by its place in the layout. */
  public static String cause(int pickup) {
    return pickup == 0 ? COIL_LOSSES : SECOND_PICKUP;
  }

  private double[][] gradients(WiredCircuit[] wired, int n) {
    double[] mean = chain.knowledge().logMean();
    double[][] gradients = new double[n][mean.length];
    IntStream.range(0, mean.length)
        .parallel()
        .forEach(
            i -> {
              double[] up = mean.clone();
              double[] down = mean.clone();
              up[i] += STEP;
              down[i] -= STEP;
              double[] high = shares(wired, up);
              double[] low = shares(wired, down);
              for (int c = 0; c < n; c++) {
                gradients[c][i] = (high[c] - low[c]) / (2 * STEP);
              }
            });
    return gradients;
  }

  /**
   * What one coil model says.
   *
   * @param names of the causes
   * @param shares loss of each [dB], and last of all together
   * @param sds their standard deviations [dB]
   */
  private record Split(List<String> names, double[] shares, double[] sds) {}

  private Split split() {
    List<Cause> causes = causes();
    boolean lossy = lossy();
    WiredCircuit[] wired = subsets(causes, lossy);
    double[] mean = chain.knowledge().logMean();
    double[] each = shares(wired, mean);
    int n = each.length;
    double[][] gradients = gradients(wired, n);
    double[] shares = java.util.Arrays.copyOf(each, n + 1);
    double[] sds = new double[n + 1];
    double[] whole = new double[mean.length];
    for (int c = 0; c < n; c++) {
      shares[n] += each[c];
      sds[c] = chain.knowledge().sd(gradients[c]);
      for (int i = 0; i < mean.length; i++) {
        whole[i] += gradients[c][i];
      }
    }
    sds[n] = chain.knowledge().sd(whole);
    return new Split(names(causes, lossy), shares, sds);
  }

  private CurvePair curves() {
    Layout stripped = layout;
    for (Cause cause : causes()) {
      stripped = cause.without().apply(stripped);
    }
    Layout bare = stripped;
    return CurvePair.of(
        "Level at the jack over the coil's own voltage",
        CurvePair.Curve.of("as it is", chain, layout),
        CurvePair.Curve.of("bare coil without losses", chain, c -> WiredCircuit.of(c, bare, true))
            .withoutBand());
  }

  /** Gives the explanation. */
  public Explanation explain() {
    Split split = split();
    List<Split> others =
        chain.rivals().stream()
            .map(r -> new Explainer(r, layout, band.lowHz(), band.highHz()).split())
            .toList();
    List<Explanation.Share> all = new ArrayList<>();
    int n = split.names().size();
    Estimate[] losses = new Estimate[n + 1];
    for (int c = 0; c <= n; c++) {
      int cause = c;
      double sd =
          chain.spread(
              split.shares()[c],
              split.sds()[c],
              others.stream().map(o -> new double[] {o.shares()[cause], o.sds()[cause]}).toList());
      losses[c] = Estimate.normal(split.shares()[c], sd, Unit.DECIBEL, Known.DERIVED);
      if (c < n) {
        all.add(new Explanation.Share(split.names().get(c), losses[c]));
      }
    }
    all.sort(Comparator.comparingDouble(s -> -s.loss().value()));
    Set<Finding> findings = new LinkedHashSet<>(chain.findings());
    findings.addAll(LayoutWarnings.of(chain, layout));
    return new Explanation(
        chain.heading(),
        band.lowHz(),
        band.highHz(),
        losses[n],
        all,
        remedies(),
        new Sayings(chain, layout).answers(),
        curves(),
        List.copyOf(findings));
  }

  /** Loss of each cause [dB]. */
  private double[] shares(WiredCircuit[] wired, double[] log) {
    double[] effect = new double[wired.length];
    for (int set = 0; set < wired.length; set++) {
      effect[set] = -band.level(wired[set], log);
    }
    return ShapleyValues.of(effect);
  }

  private Estimate estimate(double value, double[] gradient) {
    return Estimate.normal(value, chain.knowledge().sd(gradient), Unit.DECIBEL, Known.DERIVED);
  }

  private List<Explanation.Remedy> remedies() {
    Map<String, Map<String, String>> tries = new LinkedHashMap<>();
    if (turnedDown(Slot.VOLUME)) {
      tries.put("turn the volume full up", Map.of("volumeRotation", "1"));
    }
    if (turnedDown(Slot.TONE)) {
      tries.put("turn the tone full up", Map.of("toneRotation", "1"));
    }
    for (Slot pot : List.of(Slot.VOLUME, Slot.TONE)) {
      layout
          .part(pot)
          .map(chain.knowledge()::index)
          .ifPresent(
              i -> {
                double ohm = Math.exp(chain.knowledge().logMean()[i]);
                for (StandardPots next : StandardPots.values()) {
                  if (next.ohm() > 1.35 * ohm) {
                    tries.put(
                        "fit a " + next.marking() + " " + pot.noun(),
                        Map.of(pot.key(), next.marking()));
                    break;
                  }
                }
              });
    }
    if (has(Slot.TONE)) {
      tries.put(
          "disconnect the tone circuit at full up (no-load tone pot)",
          Map.of("tone", PlanReader.NONE, "toneCapacitor", PlanReader.NONE));
    }
    if (has(Slot.CABLE)) {
      double farad =
          Math.exp(
              chain.knowledge().logMean()[chain.knowledge().index(layout.part(Slot.CABLE).get())]);
      String half = String.format(java.util.Locale.ROOT, "%.0fp", farad * 0.5e12);
      tries.put("use a lead of half the capacitance (" + half + ")", Map.of("cable", half));
      tries.put(
          "fit a buffer in the guitar (1M, 10p ahead of lead and amplifier)",
          PlanReader.parsed(List.of("cable=none", "input=1M", "inputCapacitance=10p")));
    }
    layout
        .part(Slot.INPUT)
        .map(chain.knowledge()::index)
        .filter(i -> Math.exp(chain.knowledge().logMean()[i]) < 0.8e6)
        .ifPresent(i -> tries.put("plug into an input of 1M", Map.of("input", "1M")));
    List<Explanation.Remedy> remedies = new ArrayList<>();
    tries.forEach((words, changes) -> remedies.add(remedy(words, changes)));
    remedies.sort(Comparator.comparingDouble(r -> -r.gain().value()));
    return remedies;
  }

  private Explanation.Remedy remedy(String words, Map<String, String> changes) {
    SignalChain changed = chain.with("remedy", layout, changes);
    List<double[]> gains = changed.models().stream().map(this::gain).toList();
    double gain = gains.get(0)[0];
    double sd = changed.spread(gain, gains.get(0)[1], gains.subList(1, gains.size()));
    Audibility heard =
        new RandomGuitars(
                changed, layout, changed.layouts().get("remedy"), RandomGuitars.FEW, REMEDY_SEED)
            .audibility();
    Estimate inBand = Estimate.normal(gain, sd, Unit.DECIBEL, Known.DERIVED);
    return new Explanation.Remedy(
        words,
        inBand,
        band.lowHz() == band.highHz()
            ? new Audibility.Band(band.lowHz(), gain, inBand.low(), inBand.high())
            : heard.bands().stream()
                .filter(b -> inBand(b.centreHz()))
                .max(Comparator.comparingDouble(Audibility.Band::change))
                .orElseThrow());
  }

  /** Whether a third octave has a part of the band in question. */
  private boolean inBand(double centre) {
    double low = Math.min(Math.max(band.lowHz(), LOWEST_THIRD), HIGHEST_THIRD);
    double high = Math.min(Math.max(band.highHz(), LOWEST_THIRD), HIGHEST_THIRD);
    return centre * HALF_THIRD >= low && centre / HALF_THIRD <= high;
  }

  /** Gain of the remedy under one model, and its standard deviation [dB]. */
  private double[] gain(SignalChain changed) {
    WiredCircuit now = WiredCircuit.of(changed, layout);
    WiredCircuit then = WiredCircuit.of(changed, changed.layouts().get("remedy"));
    double[] mean = changed.knowledge().logMean();
    ToDoubleFunction<double[]> gain = log -> band.level(then, log) - band.level(now, log);
    double[] gradient = new double[mean.length];
    for (int i = 0; i < mean.length; i++) {
      double[] up = mean.clone();
      double[] down = mean.clone();
      up[i] += STEP;
      down[i] -= STEP;
      gradient[i] = (gain.applyAsDouble(up) - gain.applyAsDouble(down)) / (2 * STEP);
    }
    return new double[] {gain.applyAsDouble(mean), changed.knowledge().sd(gradient)};
  }
}
