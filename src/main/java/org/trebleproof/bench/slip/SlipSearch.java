package org.trebleproof.bench.slip;

import java.nio.file.Path;
import java.util.Comparator;
import java.util.EnumMap;
import java.util.LinkedHashMap;
import java.util.List;
import java.util.Map;
import java.util.Optional;
import java.util.stream.Stream;
import org.trebleproof.bench.answer.Slip;
import org.trebleproof.bench.job.CaptureEntry;
import org.trebleproof.bench.job.Job;
import org.trebleproof.bench.model.BenchUnknown;
import org.trebleproof.bench.model.Candidate;
import org.trebleproof.bench.model.CoilLadder;
import org.trebleproof.bench.model.FirstFit;
import org.trebleproof.bench.model.FittedModels;
import org.trebleproof.bench.sweep.CaptureReading;
import org.trebleproof.bench.sweep.ChannelLeak;
import org.trebleproof.fixture.Fixture;
import org.trebleproof.fixture.PreFlight;
import org.trebleproof.quantity.Finding;
import org.trebleproof.quantity.FindingCode;
import org.trebleproof.quantity.Refusal;
import org.trebleproof.quantity.Response;

/**
 * Looks for the single slip with which everything about a job agrees. Every slip that people make
 * is supposed in turn, the captures are taken as they then are, and one cheap fit tells how likely
 * they are. A supposition with an unknown value pays for it by its wide prior, and a kind of slip
 * that could have been made in many places pays for each of them being less likely.
 */
public final class SlipSearch {

  /** Up to here a plain coil agrees with the captures, but for what a path leaves over. */
  private static final double AGREES = 1.5e-4;

  /**
   * What is left over beyond this is no search that went astray. Under an exciter some do: its
   * field is one unknown more that a coil's loss can be taken for.
   */
  private static final double ASTRAY_IN_SERIES = AGREES;

  private static final double ASTRAY_UNDER_EXCITER = 2e-3;

  /** A statement farther off than this does not agree with the rest, in standard deviations. */
  private static final double STRAINED = 4.5;

  /**
   * No input cuts off higher up, low-cut switches included [Hz]; common practice, no source. Beyond
   * that a fit has made the input another filter, to agree with what is not so.
   */
  private static final double HIGHEST_CORNER = 300;

  /** By so much a slip must be likelier than the job as written, as twice a logarithm of odds. */
  private static final double SURELY = 40;

  /** What no plain coil explains must be left over by so many times less. */
  private static final double FAR_BETTER = 4;

  /** Slips within this are not told apart, as twice a logarithm of odds. */
  private static final double APART = 30;

  /** The same where all agrees with the job as written but a statement. */
  private static final double LIKELY = 12;

  /** A fit that leaves over less than so many times another one's is as good. */
  private static final double AS_GOOD = 1.5;

  /** What leaves over so many times as much as another at a glance is not looked at again. */
  private static final double HOPELESS = 100;

  /** How many of the best are looked at with every plain coil. */
  private static final int CLOSER = 6;

  /** How many of them the job as written is fitted again from. */
  private static final int LED = 3;

  private static final int MOST_TOLD = 2;

  private final Job job;
  private final List<CaptureReading> read;
  private final Map<Path, CaptureReading> readings = new LinkedHashMap<>();
  private final List<Supposition> rates;
  private final Patience patience;
  private Optional<FirstFit> stated = Optional.empty();
  private Optional<List<Tried>> tried = Optional.empty();
  private Optional<Double> leaking = Optional.empty();

  /**
   * @param job as it is written
   * @param read its captures as they were read
   * @param patience how long slips are looked for
   */
  public SlipSearch(Job job, List<CaptureReading> read, Patience patience) {
    this.job = job;
    this.patience = patience;
    this.read = read;
    read.forEach(r -> readings.put(r.entry().file(), r));
    this.rates = measured() ? SweepRates.of(job, read) : List.of();
  }

  /** A supposition held against the captures. */
  private record Tried(Supposition supposition, FirstFit fit, double cost) {
    double score() {
      return fit.criterion() + cost;
    }

    boolean strained() {
      return fit.strain() > STRAINED
          || fit.value(BenchUnknown.INPUT_CORNER.key()) > HIGHEST_CORNER
          || fit.value(BenchUnknown.BUFFER_CORNER.key()) > HIGHEST_CORNER;
    }
  }

  /** What does not agree stands behind what does. */
  private static final Comparator<Tried> LIKELIEST =
      Comparator.comparing(Tried::strained).thenComparingDouble(Tried::score);

  private boolean measured() {
    return !read.isEmpty()
        && read.size() == readings.size()
        && read.stream().allMatch(r -> r.measured().size() > 0)
        // Plain coils, which are all that is tried here, have no junction to tap.
        && job.setups().values().stream().noneMatch(s -> s.extras().tapped());
  }

  /**
   * The slips that are beyond doubt before a coil like no other is looked for: with the likeliest a
   * plain coil explains everything, as the job is written it does not.
   *
   * @param written the likeliest textbook coil of the job as it is written
   */
  public List<Slip> plain(Candidate written) {
    if (!measured() || rates.isEmpty() && written.granted() < astray()) {
      return List.of();
    }
    if (!rates.isEmpty()) {
      // A sweep that is of round length at another rate is no accident.
      double asGood = Math.max(AGREES, AS_GOOD * written.granted());
      List<Slip> wrong = likeliest(all(rates).stream().filter(t -> t.fit().floor() < asGood));
      if (!wrong.isEmpty()) {
        return wrong;
      }
    }
    return written.granted() < astray()
        ? List.of()
        : told(t -> t.fit().floor() < AGREES && !t.strained());
  }

  private double astray() {
    return job.fixture() instanceof Fixture.Series ? ASTRAY_IN_SERIES : ASTRAY_UNDER_EXCITER;
  }

  /**
   * The slips with which the captures agree far better than as the job is written.
   *
   * @param models the job as it is written, under every coil
   */
  public List<Slip> against(FittedModels models) {
    if (!measured()) {
      return List.of();
    }
    double left = models.discrepancy().floor();
    FirstFit whole = FirstFit.of(models, responses(job));
    stated = Optional.of(FirstFit.better(stated(), whole));
    tried = Optional.of(under(whole, searched()));
    return told(
        t -> {
          boolean closer = t.fit().floor() < Math.max(AGREES, stated().floor() / FAR_BETTER);
          boolean easier = stated().strain() > STRAINED && !t.strained();
          return (closer || easier)
              && t.fit().strain() < Math.max(STRAINED, stated().strain())
              && t.fit().floor() < Math.max(AGREES, 2 * left);
        });
  }

  /**
   * The slips with which a capture that cannot be what it is said to be is one: something connected
   * otherwise, or else whatever leaves nothing over.
   */
  public List<Slip> wiring() {
    return told(
        t ->
            t.supposition().ofWiring()
                ? t.fit().floor() < stated().floor() / FAR_BETTER
                : t.fit().floor() < AGREES
                    && t.fit().strain() < Math.max(STRAINED, stated().strain()));
  }

  /** What is said of slips in the verdict. */
  public Optional<Finding> finding(List<Slip> slips) {
    if (slips.isEmpty()) {
      return Optional.empty();
    }
    String second =
        slips.size() < 2
            ? ""
            : " If it is not that: "
                + slips.get(1).text().replaceFirst("^It looks", "it also looks");
    return Optional.of(
        Finding.of(
            FindingCode.SLIP_LIKELY,
            slips.get(0).text(),
            patience.lost()
                ? "as many of the slips that are often made were tried in turn as time allowed"
                : "every single slip that is often made was tried in turn",
            "Check that first. If it is so, correct the job (--assume-slip 1 takes it that way and"
                + " writes the corrected job file; the window has a button)."
                + second));
  }

  private FirstFit stated() {
    if (stated.isEmpty()) {
      stated = Optional.of(FirstFit.best(job, responses(job), Map.of()));
    }
    return stated.get();
  }

  private List<Slip> told(java.util.function.Predicate<Tried> agrees) {
    if (!measured()) {
      return List.of();
    }
    if (tried.isEmpty()) {
      tried = Optional.of(searched());
      heldAgain();
    }
    double better = stated().criterion() - (stated().floor() < AGREES ? LIKELY : SURELY);
    List<Tried> those =
        tried.get().stream().filter(t -> t.score() < better).filter(agrees).toList();
    return likeliest(those.stream().filter(t -> t.score() < leaking() - LIKELY));
  }

  /**
   * The score of a large leak between the channels, where one explains everything: no slip of the
   * person who wrote the job is to blame then, unless it is much the likelier.
   */
  private double leaking() {
    if (leaking.isEmpty()) {
      Map<String, Response> shown = responses(job);
      leaking =
          Optional.of(
              ChannelLeak.explaining(new CoilLadder(job, shown))
                  .map(leak -> FirstFit.of(leak, shown).criterion())
                  .orElse(Double.POSITIVE_INFINITY));
    }
    return leaking.get();
  }

  private List<Tried> searched() {
    return tried.orElseGet(() -> closer(all(Suppositions.of(job))));
  }

  /** The same under the coil that a whole fit has chosen, which may be no plain one. */
  private List<Tried> under(FirstFit whole, List<Tried> plain) {
    return plain.parallelStream()
        .map(
            t -> {
              Job supposed = t.supposition().supposed(job);
              return new Tried(
                  t.supposition(),
                  t.fit().from(whole, responses(supposed), t.supposition().open()),
                  t.cost());
            })
        .sorted(LIKELIEST)
        .toList();
  }

  /** The likeliest, and one of another kind that is not told apart from it. */
  private static List<Slip> likeliest(Stream<Tried> those) {
    List<Tried> agreeing = those.toList();
    if (agreeing.isEmpty()) {
      return List.of();
    }
    double best = agreeing.get(0).score();
    Map<Slip.Kind, Slip> ofEachKind = new LinkedHashMap<>();
    for (Tried t : agreeing) {
      if (t.score() < best + APART) {
        t.supposition().slip(t.fit()).ifPresent(slip -> ofEachKind.putIfAbsent(slip.kind(), slip));
      }
    }
    return ofEachKind.values().stream().limit(MOST_TOLD).toList();
  }

  private List<Tried> all(List<Supposition> suppositions) {
    Map<Slip.Kind, Long> places = new EnumMap<>(Slip.Kind.class);
    suppositions.forEach(s -> places.merge(s.kind(), 1L, Long::sum));
    List<Tried> seen =
        patience.inTurn(
            suppositions, s -> seen(s, 2 * Math.log(places.get(s.kind()))), s -> List.of());
    double least = seen.stream().mapToDouble(t -> t.fit().floor()).min().orElse(0);
    List<Tried> near =
        seen.stream()
            .filter(t -> t.fit().floor() < HOPELESS * Math.max(least, AGREES))
            .sorted(Comparator.comparingDouble(t -> t.fit().floor()))
            .toList();
    return patience
        .inTurn(
            near,
            t -> fittedAgain(t, (supposed, shown, open) -> t.fit().closer(shown, open)),
            List::of)
        .stream()
        .sorted(Comparator.comparingDouble(Tried::score))
        .toList();
  }

  private List<Tried> seen(Supposition s, double cost) {
    try {
      Job supposed = s.supposed(job);
      return List.of(new Tried(s, FirstFit.glance(supposed, responses(supposed), s.open()), cost));
    } catch (Refusal cannotBeWiredSo) {
      return List.of();
    }
  }

  /** The best of them with every plain coil, what does not agree behind what does. */
  private List<Tried> closer(List<Tried> all) {
    Map<List<Object>, Tried> ofEachPlace = new LinkedHashMap<>();
    for (Tried t : all) {
      ofEachPlace.putIfAbsent(List.of(t.supposition().kind(), t.supposition().at()), t);
    }
    // Those first whose statements all stand, then whatever comes near.
    List<Tried> first =
        Stream.concat(
                ofEachPlace.values().stream().filter(t -> !t.strained()).limit(CLOSER / 2),
                ofEachPlace.values().stream())
            .distinct()
            .limit(CLOSER)
            .toList();
    List<Tried> looked =
        patience
            .inTurn(
                first,
                t -> fittedAgain(t, (supposed, shown, open) -> t.fit().best(shown, open)),
                List::of)
            .stream()
            .sorted(LIKELIEST)
            .toList();
    if (looked.isEmpty()) {
      return looked;
    }
    // What one search found is where another one of nearly the same job may not have got to.
    FirstFit there = looked.get(0).fit();
    return patience
        .inTurn(
            looked,
            t ->
                t.fit() == there
                    ? List.of(t)
                    : fittedAgain(t, (supposed, shown, open) -> t.fit().from(there, shown, open)),
            List::of)
        .stream()
        .sorted(LIKELIEST)
        .toList();
  }

  private List<Tried> fittedAgain(Tried t, Search search) {
    Job supposed = t.supposition().supposed(job);
    FirstFit fit = search.fit(supposed, responses(supposed), t.supposition().open());
    return List.of(new Tried(t.supposition(), fit, t.cost()));
  }

  /** How a job that is supposed is fitted. */
  private interface Search {
    FirstFit fit(Job supposed, Map<String, Response> shown, Map<String, Double> open);
  }

  /** The job as written once more, from where the likeliest slips have led. */
  private void heldAgain() {
    for (Tried t : tried.orElseThrow().stream().limit(LED).toList()) {
      if (stated().floor() > AGREES && t.score() < stated().criterion()) {
        stated = Optional.of(stated().from(t.fit(), responses(job), Map.of()));
      }
    }
  }

  /** What the captures show if a job is so. */
  private Map<String, Response> responses(Job supposed) {
    Map<String, Response> responses = new LinkedHashMap<>();
    for (CaptureEntry c : supposed.captures()) {
      responses.put(c.id(), taken(readings.get(c.file()), c.handling(), supposed.fixture()));
    }
    return responses;
  }

  private Response taken(CaptureReading reading, CaptureEntry.Handling handling, Fixture fixture) {
    Fixture written = job.fixture();
    boolean exchanged = fixture.referenceChannel() != written.referenceChannel();
    boolean turned = exchanged ^ handling.swapped() ^ reading.entry().handling().swapped();
    double rate = handling.sampleRate().orElse(reading.sampleRate()) / reading.sampleRate();
    Response r = rate == 1 ? reading.measured() : faster(reading.measured(), rate);
    if (turned) {
      r = inverse(r);
    }
    return turned || fixture.getClass() != written.getClass() ? PreFlight.upright(fixture, r) : r;
  }

  /** What a recording shows if its samples came faster than it says. */
  private static Response faster(Response r, double rate) {
    double[] hz = r.hz().clone();
    for (int i = 0; i < hz.length; i++) {
      hz[i] *= rate;
    }
    return new Response(hz, r.re(), r.im(), r.sd());
  }

  /** Reference over device channel: one over the value, as precise in relation to it. */
  private static Response inverse(Response r) {
    int n = r.size();
    double[] re = new double[n];
    double[] im = new double[n];
    double[] sd = new double[n];
    for (int i = 0; i < n; i++) {
      double power = r.re()[i] * r.re()[i] + r.im()[i] * r.im()[i];
      re[i] = r.re()[i] / power;
      im[i] = -r.im()[i] / power;
      sd[i] = r.sd()[i] / power;
    }
    return new Response(r.hz(), re, im, sd);
  }
}
