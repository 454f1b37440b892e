package org.trebleproof.bench.model;

import java.util.ArrayList;
import java.util.Arrays;
import java.util.Comparator;
import java.util.HashMap;
import java.util.LinkedHashMap;
import java.util.List;
import java.util.Map;
import java.util.Optional;
import java.util.stream.Stream;
import org.trebleproof.bench.job.Job;
import org.trebleproof.circuit.CoilModel;
import org.trebleproof.circuit.CoilParameter;
import org.trebleproof.circuit.CoilParameter.Role;
import org.trebleproof.fit.LeastSquares;
import org.trebleproof.fit.Parameter;
import org.trebleproof.fit.Solution;
import org.trebleproof.fit.SpreadEvidence;
import org.trebleproof.fixture.Fixture;
import org.trebleproof.quantity.Response;
import org.trebleproof.quantity.Unit;

/**
 * Tries the models of one coil, whichever of them passes first, and those of two coils where none
 * does, and weighs them by their {@link Evidence}. First steps use every third point; what comes
 * near the best is fitted to all of them.
 */
public final class CoilLadder {

  /** Data chi-square per residual up to which residuals pass. */
  public static final double PASS = 1.6;

  /** Spreads of departures that are tried, relative to the inductance. */
  private static final double[] SPREADS = {
    2e-6, 5e-6, 1e-5, 2e-5, 5e-5, 1e-4, 2e-4, 5e-4, 1e-3, 2e-3, 5e-3, 1e-2, 2e-2, 5e-2, 0.1, 0.2
  };

  private static final double LEAST_DEPARTURE = SPREADS[0];

  /** Departures up to here are what a recording path leaves, not another kind of coil. */
  private static final double ORDINARY_DEPARTURE = 3e-5;

  /** Odds of e^6 (400 to 1) that a coil is no textbook coil, before it is treated as such. */
  private static final double SURELY_ODD = 12;

  /** Departures so much less likely than small ones are none, as twice a logarithm of odds. */
  private static final double CANNOT_WIN = 30;

  /**
   * A coil that is no textbook coil has metal about it that the model does not know, and such metal
   * holds some hundredths of the inductance; that the data can be met with less does not make it
   * less. Common practice, no source.
   */
  static final double ODD_DEPARTURE = 0.05;

  /** So many standard deviations from what is known beforehand a search may start. */
  private static final double PLAUSIBLE = 3;

  /** A model whose chi-square is larger than the best one's by this factor is out of the race. */
  private static final double HOPELESS = 5;

  /** Share of the smaller coil of two, and the capacitances of the larger over the smaller. */
  private static final double SMALLER_COIL = 0.4;

  private static final double[] UNEQUAL_CAPACITANCE = {1, 1.4, 0.7};

  private static final List<CoilModel> SIMPLE =
      List.of(CoilModel.SOLID_CORE, CoilModel.SPLIT_INDUCTANCE, CoilModel.LOSS_RESISTOR);

  /**
   * Thin and thick sheets, German silver and brass [s]: from one of them a search finds its way.
   */
  private static final double[] FIELD_TIMES = {4e-6, 1e-5, 4e-5};

  /**
   * Diffusion times of 5 mm rods [s], radius squared times permeability times conductivity:
   * relative permeability 4 and 2 MS/m for alnico, 50 and 4 MS/m for steel; from memory.
   */
  private static final double ALNICO_TIME = 6e-5;

  private static final double STEEL_TIME = 1.5e-3;

  /** Models that come within this of the best on every third point are fitted to all of them. */
  static final double NEAR = 40;

  private static final int MOST_REFINED = 4;

  /** How many models are given a loss of constant phase. */
  private static final int LEADING = 2;

  /** Where there is a leak at all, it is of the order of -66 dB; common practice, no source. */
  private static final double SMALL_LEAK = 5e-4;

  /** What a monitoring path left on or a wrong cable leaves in the other channel. */
  private static final double LARGE_LEAK = 0.03;

  /** Leaks from which a large one is searched, as shares of the reference. */
  private static final double[] LEAKS = {-0.03, -0.01, -0.003, 0, 0.003, 0.01, 0.03};

  /** What a textbook coil leaves no less than is a coil or a job of another kind. */
  private static final double NOT_MET = 1e-4;

  /** One statement in a hundred jobs is wrong; common practice, no source. */
  private static final double MISREAD = 2 * Math.log(99);

  /** By so much a leak must be the better explanation for none to be considered without. */
  private static final double SURELY_LEAKS = 60;

  /** One bench in ten has a leak that can be seen; common practice, no source. */
  private static final double RARE = 2 * Math.log(9);

  /** How loose a statement is taken to be where it is in doubt. */
  private static final double LOOSE = 0.01;

  private static final double MUCH_LOOSER = 10;

  /** How often a smaller floor is tried. */
  private static final int LOWERED = 3;

  private static final double SETTLED = Descent.SETTLED;

  private static final List<CoilModel> UPPER =
      List.of(CoilModel.TWO_CORES, CoilModel.TWO_CORES_COVERED, CoilModel.TWO_COILS);

  private final Job job;
  private final Latitude latitude;
  private final Map<String, Response> measured;
  private final Map<String, CoilStart> starts;

  private final LeastSquares quick = LeastSquares.alongValleys(1e-4, 35);
  private final LeastSquares last = LeastSquares.alongValleys(1e-5, 60);

  /**
   * Of so many unknowns each step is dear, and what a step would still do is counted as unknown.
   */
  private final LeastSquares brief = LeastSquares.alongValleys(1e-5, 12);

  private static final int MANY = 50;

  private final LeastSquares patient = LeastSquares.alongValleys(1e-4, 120);

  /** Every model of one coil; empty until it was asked for. */
  private List<Candidate> oneCoil = List.of();

  public CoilLadder(Job job, Map<String, Response> measured) {
    this(job, measured, Latitude.NONE);
  }

  /**
   * @param latitude what is allowed beyond what the job states
   */
  public CoilLadder(Job job, Map<String, Response> measured, Latitude latitude) {
    this.latitude = latitude;
    this.job = job;
    this.measured = measured;
    this.starts = CurveStart.of(job, measured);
  }

  /**
   * All models tried, best first; the best and every rival that is near it use all points. Every
   * model of one coil is tried, whichever of them already passes: which one is right is for the
   * evidence to say, and a model that only nearly fits makes the job's statements pay for the rest.
   */
  public List<Candidate> climb() {
    List<Candidate> tried = new ArrayList<>();
    if (tapped()) {
      tried.add(coarse(CoilModel.TWO_COILS.withConstantPhase(), Map.of(), List.of()));
      tried.addAll(withConstantTangent(tried));
    } else {
      tried.addAll(oneCoil());
      if (!best(tried).passes() && latitude.leak() == 0) {
        List<Candidate> heard =
            bestOfEach(tried).stream().limit(LEADING).map(this::leaking).toList();
        if (best(heard).criterion() < best(tried).criterion() - SURELY_LEAKS) {
          return new CoilLadder(job, measured, latitude.withLeak(SMALL_LEAK)).climb();
        }
      }
      if (best(tried).evidence().floor() > NOT_MET && latitude.loosened().isEmpty()) {
        Optional<Candidate> wrong = oneStatementWrong();
        if (wrong.isPresent()) {
          tried.add(wrong.get());
          return refined(bestOfEach(tried));
        }
      }
      if (!best(tried).passes() || elaborate(best(tried).model().coil())) {
        tried.addAll(elaborated(tried));
      }
    }
    return refined(bestOfEach(tried));
  }

  /**
   * The textbook coil that explains the captures when one of the job's statements is let go, where
   * there is one: a value that was misread or mistyped is likelier than a coil like no other.
   */
  private Optional<Candidate> oneStatementWrong() {
    JobModel plain = model(CoilModel.LOSS_RESISTOR);
    List<String> statements =
        plain.parameters().stream()
            .filter(p -> p.hasPrior() && plain.statement(p.name()))
            .map(Parameter::name)
            .filter(name -> plain.placed(name).isEmpty())
            .filter(name -> !plain.is(Role.CAPACITANCE, name))
            .toList();
    Latitude all = latitude;
    for (String statement : statements) {
      all = all.loosened(statement, letGo(plain, statement));
    }
    List<Candidate> free = bestOfEach(new CoilLadder(job, measured, all).oneCoil());
    if (free.get(0).evidence().floor() > NOT_MET) {
      return Optional.empty();
    }
    Candidate found = free.get(0);
    Map<String, Double> place = Descent.place(found);
    return statements.stream()
        .map(s -> found.model().within(latitude.loosened(s, letGo(plain, s))))
        // Where everything was let go is a good place for a small slip, a new start for a large
        // one.
        .flatMap(
            m ->
                Stream.of(
                    Descent.settled(m, place, quick),
                    new Descent(m, Map.of()).end(patient, List.of())))
        .filter(c -> c.evidence().floor() < NOT_MET)
        .min(Comparator.comparingDouble(Candidate::criterion))
        .map(c -> c.ranked(c.criterion() + MISREAD));
  }

  /** How wide a statement is once it is let go: a value by a factor of some, a delay by far. */
  private static double letGo(JobModel model, String statement) {
    return model.parameters().get(model.index(statement)).logarithmic() ? 1 : 100;
  }

  /** Only a pickup of two coils has the junction that a tap grounds. */
  private boolean tapped() {
    return job.setups().values().stream().anyMatch(s -> s.extras().tapped());
  }

  /**
   * Every model of one coil. The core under a cover comes first: it holds the others, and with
   * nothing granted its search finds the valley that coming down by stages may miss. The simpler
   * ones start from where it ended, and from the usual places, in case its own parts stood in for
   * each other there. The dielectric's loss is taken to be of constant phase, as causality asks of
   * it; a constant tangent is tried where that comes near.
   */
  private List<Candidate> oneCoil() {
    if (!oneCoil.isEmpty()) {
      return oneCoil;
    }
    List<Candidate> tried = new ArrayList<>();
    JobModel whole = model(CoilModel.COVERED_CORE.withConstantPhase());
    Candidate covered = Descent.sheer(whole, fieldStarts(whole), patient);
    tried.add(covered);
    SIMPLE.stream().map(part -> uncovered(covered, part.withConstantPhase())).forEach(tried::add);
    tried.addAll(withConstantTangent(tried));
    oneCoil = List.copyOf(tried);
    return oneCoil;
  }

  /** The likeliest textbook coil, on every third point; none where a tap needs two coils. */
  public Optional<Candidate> textbookCoil() {
    return tapped() ? Optional.empty() : Optional.of(best(oneCoil()));
  }

  /** The usual places, and under an exciter with either kind of metal in its field. */
  private static List<Map<String, Double>> fieldStarts(JobModel model) {
    String time = BenchUnknown.FIELD_TIME.key();
    return model.index(time) < 0
        ? List.of(Map.of())
        : Arrays.stream(FIELD_TIMES).mapToObj(t -> Map.of(time, Math.log(t))).toList();
  }

  /** What another model of the same pickup calls an unknown of this kind. */
  private static String beside(JobModel model, String unknown, CoilModel other, Role role) {
    String pickup = model.ofCoil(unknown).orElseThrow().pickup();
    return other.first(role).orElseThrow().in(pickup);
  }

  /**
   * A simpler coil, from where core and cover together came; and, where it does not come as near as
   * they from there, from a usual coil on the bench that they have found.
   */
  private Candidate uncovered(Candidate covered, CoilModel part) {
    JobModel model = model(part);
    CoilModel whole = covered.model().coil();
    Map<String, Double> place = Descent.place(covered);
    Map<String, Double> bench = new HashMap<>(place);
    for (Parameter p : model.parameters()) {
      String name = p.name();
      if (model.is(Role.SPLIT_INDUCTANCE, name)) {
        place.put(name, place.get(beside(model, name, whole, Role.COVER_INDUCTANCE)));
      } else if (model.is(Role.SPLIT_TIME, name)) {
        place.put(name, place.get(beside(model, name, whole, Role.COVER_TIME)));
      }
      if (model.ofCoil(name).isPresent()) {
        bench.remove(name);
      }
    }
    return Descent.sheerBeside(covered, model, List.of(place, bench), quick);
  }

  /**
   * The leading models again, with a constant loss tangent; all of them where none passes, as then
   * the order means nothing.
   */
  private List<Candidate> withConstantTangent(List<Candidate> tried) {
    List<Candidate> best = bestOfEach(tried);
    int leading = best.stream().anyMatch(Candidate::passes) ? LEADING : best.size();
    return best.stream()
        .parallel()
        .filter(c -> best.indexOf(c) < leading || c.model().coil().innerNodes() > 0)
        .map(
            c -> {
              Map<String, Double> place = Descent.place(c);
              CoilModel coil = c.model().coil().withDielectricLoss();
              return Descent.settled(model(coil), place, elaborate(coil) ? patient : quick);
            })
        .toList();
  }

  /** What it takes more than one coil with one kind of metal to explain. */
  private List<Candidate> elaborated(List<Candidate> simple) {
    List<Candidate> tried = new ArrayList<>();
    List<Candidate> all = new ArrayList<>(simple);
    Map<String, Double> warm = new HashMap<>();
    for (CoilModel coil : UPPER) {
      // What it takes more than a textbook coil to explain may as well be two coils.
      if (best(all).passes() && coil.innerNodes() == 0) {
        continue;
      }
      remember(best(all), warm);
      tried.add(coarse(coil.withConstantPhase(), warm, all));
      if (coil.innerNodes() > 0 && !tried.get(tried.size() - 1).passes()) {
        // Two coils come out as they are only from their own places, with either kind of loss.
        tried.add(coarse(coil.withDielectricLoss(), warm, all));
      }
      all.addAll(tried);
    }
    List<Candidate> oneCoil =
        tried.stream().filter(c -> c.model().coil().innerNodes() == 0).toList();
    tried.addAll(withConstantTangent(best(all).passes() ? oneCoil : tried));
    return tried;
  }

  /** The best and what comes near it on all points, then the others. */
  private List<Candidate> refined(List<Candidate> tried) {
    List<Candidate> near =
        tried.stream()
            .filter(c -> c.criterion() < tried.get(0).criterion() + NEAR)
            .limit(MOST_REFINED)
            .toList();
    List<Candidate> refined =
        new ArrayList<>(near.stream().parallel().map(this::onAllPoints).toList());
    refined.sort(Comparator.comparingDouble(Candidate::criterion));
    tried.stream().filter(c -> !near.contains(c)).forEach(refined::add);
    return refined;
  }

  /**
   * Models found by way of a statement taken to be looser than stated, then held to it again. A
   * model that only nearly fits pulls a true statement off its place, and the search may stay with
   * it; without the pull the right model is found, which then has nothing against the statement.
   *
   * @param doubted the fit that contradicts the statement
   * @param statement name of the parameter
   * @param noiseScale factor on the points' standard deviations
   */
  List<Candidate> byWayOf(Candidate doubted, String statement, double noiseScale) {
    Latitude tight = doubted.model().latitude();
    double stated =
        model(CoilModel.LOSS_RESISTOR).parameters().stream()
            .filter(p -> p.name().equals(statement))
            .mapToDouble(Parameter::priorSd)
            .findFirst()
            .orElse(LOOSE);
    Latitude loose = tight.loosened(statement, Math.max(LOOSE, MUCH_LOOSER * stated));
    return new CoilLadder(job, measured, loose)
        .climb().stream()
            .filter(c -> c.step() == 1)
            .map(c -> refit(c, c.model().within(tight), c.evidence().floor(), noiseScale))
            .toList();
  }

  /** The best fit of each model, the best model first. */
  private static List<Candidate> bestOfEach(List<Candidate> tried) {
    Map<String, Candidate> best = new LinkedHashMap<>();
    tried.stream()
        .sorted(Comparator.comparingDouble(Candidate::criterion))
        .forEach(c -> best.putIfAbsent(c.model().coil().key() + c.model().latitude(), c));
    return new ArrayList<>(best.values());
  }

  private static Candidate best(List<Candidate> tried) {
    return tried.stream().min(Comparator.comparingDouble(Candidate::criterion)).orElseThrow();
  }

  private JobModel model(CoilModel coil) {
    return new JobModel(job, coil, starts, measured, latitude);
  }

  private static void remember(Candidate c, Map<String, Double> warm) {
    Descent.remember(c.solution(), warm);
  }

  private Candidate coarse(CoilModel coil, Map<String, Double> warm, List<Candidate> others) {
    JobModel model = model(coil);
    List<Candidate> tried = new ArrayList<>();
    Map<String, Double> from = elaborate(coil) ? plausible(model, warm) : warm;
    for (Map<String, Double> place : places(model, from)) {
      tried.add(new Descent(model, place).end(elaborate(coil) ? patient : quick, others));
      if (best(tried).passes()) {
        break;
      }
    }
    return best(tried);
  }

  /**
   * What a model that fails by far made of markings and usual values, in order to come a little
   * nearer, is left behind.
   */
  private static Map<String, Double> plausible(JobModel model, Map<String, Double> warm) {
    Map<String, Double> place = new HashMap<>(warm);
    for (Parameter p : model.parameters()) {
      if (p.hasPrior() && place.containsKey(p.name())) {
        double off = (place.get(p.name()) - p.priorMean()) / p.priorSd();
        double kept = Math.max(-PLAUSIBLE, Math.min(PLAUSIBLE, off));
        place.put(p.name(), p.priorMean() + kept * p.priorSd());
      }
    }
    return place;
  }

  /** From where a model is searched, the likeliest first. */
  private static List<Map<String, Double>> places(JobModel model, Map<String, Double> warm) {
    if (model.coil().innerNodes() > 0) {
      return Arrays.stream(UNEQUAL_CAPACITANCE)
          .mapToObj(ratio -> unequalCoils(model, warm, ratio))
          .toList();
    }
    boolean twoCores =
        model.coil().parameters().stream()
            .anyMatch(p -> p.role() == Role.CORE_TIME && p.ordinal() == 2);
    return twoCores ? List.of(warm, alnicoAndSteel(model, warm)) : List.of(warm);
  }

  /**
   * How two coils divide the whole shows only in the details, which a search from equal coils
   * misses: one holds more, with this ratio of the capacitances.
   */
  private static Map<String, Double> unequalCoils(
      JobModel model, Map<String, Double> warm, double capacitance) {
    Map<String, Double> place = new HashMap<>(warm);
    for (Parameter p : model.parameters()) {
      Optional<CoilUnknown> unknown = model.ofCoil(p.name()).filter(c -> model.swept(c.pickup()));
      if (unknown.isEmpty()) {
        continue;
      }
      boolean first = unknown.get().parameter().ordinal() == 1;
      double share = first ? 1 - SMALLER_COIL : SMALLER_COIL;
      switch (unknown.get().role()) {
        case INDUCTANCE, CORE_INDUCTANCE, RESISTANCE ->
            place.put(p.name(), p.start() + Math.log(2 * share));
        case CAPACITANCE ->
            place.put(p.name(), p.start() + (first ? 0.5 : -0.5) * Math.log(capacitance));
        default -> {}
      }
    }
    return place;
  }

  /** Two kinds of core far apart; what simpler models made of the metal is left behind. */
  private static Map<String, Double> alnicoAndSteel(JobModel model, Map<String, Double> warm) {
    Map<String, Double> place = new HashMap<>(warm);
    for (Parameter p : model.parameters()) {
      Optional<CoilUnknown> unknown = model.ofCoil(p.name());
      if (unknown.isEmpty()) {
        continue;
      }
      CoilParameter parameter = unknown.get().parameter();
      if (parameter.role() == Role.CORE_TIME) {
        place.put(p.name(), Math.log(parameter.ordinal() == 1 ? ALNICO_TIME : STEEL_TIME));
      } else if (parameter.role().unit() == Unit.HENRY || parameter.role().unit() == Unit.SECOND) {
        place.put(p.name(), p.start());
      }
    }
    return place;
  }

  /** The same model on all points, near enough to its end to tell how likely it is. */
  private Candidate onAllPoints(Candidate c) {
    return refit(Descent.place(c), c.model(), c.evidence().floor(), 1, quick);
  }

  /** The same, with this floor and no other. */
  Candidate refit(Candidate c, double floor, double noiseScale) {
    Map<String, Double> place = Descent.place(c);
    Solution s = last.solve(Descent.startedFrom(c.model(), place), c.model().residuals(floor, 1));
    return Candidate.of(c.model(), s, 1, Evidence.at(c.model(), s, 1, noiseScale, floor));
  }

  /**
   * The same model heard through a leak between the channels, such as one bench in ten has.
   *
   * @param noiseScale factor on the points' standard deviations
   */
  private Candidate leaking(Candidate c) {
    Map<String, Double> place = Descent.place(c);
    JobModel leaking = c.model().within(c.model().latitude().withLeak(SMALL_LEAK));
    Candidate heard = Descent.settled(leaking, place, quick);
    return heard.ranked(heard.criterion() + RARE);
  }

  /** The same on all points; empty where it leaks already. */
  Optional<Candidate> leaking(Candidate c, double noiseScale) {
    if (c.model().latitude().leak() > 0 || job.fixture() instanceof Fixture.Strike) {
      return Optional.empty();
    }
    JobModel leaking = c.model().within(c.model().latitude().withLeak(SMALL_LEAK));
    Candidate heard = refit(c, leaking, c.evidence().floor(), noiseScale);
    return Optional.of(heard.ranked(heard.criterion() + RARE));
  }

  /**
   * A plain coil heard through a leak as large as a wrong switch or cable makes it, the best of
   * searches from several sizes; none where a tap needs two coils. A model of two coils with
   * departures can be bent to take such a leak for metal.
   */
  public Optional<Candidate> heardThroughALeak() {
    if (tapped()) {
      return Optional.empty();
    }
    CoilLadder leaking = new CoilLadder(job, measured, latitude.withLeak(LARGE_LEAK));
    JobModel model = leaking.model(CoilModel.SOLID_CORE.withConstantPhase());
    List<Map<String, Double>> sizes =
        Arrays.stream(LEAKS)
            .mapToObj(leak -> Map.of(BenchUnknown.LEAK.key(), leak / LARGE_LEAK))
            .toList();
    Candidate heard = Descent.sheer(model, sizes, quick);
    return Optional.of(leaking.refit(heard, model, 0, 1));
  }

  /** A model that has the unknowns of a candidate and perhaps more, from its place. */
  Candidate refit(Candidate c, JobModel model, double floor, double noiseScale) {
    Map<String, Double> place = Descent.place(c);
    return refit(place, model, floor, noiseScale, last);
  }

  private Candidate refit(
      Map<String, Double> place,
      JobModel model,
      double floor,
      double noiseScale,
      LeastSquares whole) {
    LeastSquares method = model.parameters().size() > MANY ? brief : whole;
    Solution s = method.solve(Descent.startedFrom(model, place), model.residuals(floor, 1));
    double own = Evidence.floor(model, s.x(), 1, noiseScale);
    // A floor that is granted keeps the search from finding that less would do.
    for (int lower = 0; own > 0 && lower < LOWERED; lower++) {
      Map<String, Double> there = new HashMap<>();
      Descent.remember(s, there);
      Solution closer =
          method.solve(Descent.startedFrom(model, there), model.residuals(own / 4, 1));
      double left = Evidence.floor(model, closer.x(), 1, noiseScale);
      if (left > own / SETTLED) {
        break;
      }
      s = closer;
      own = left;
      Descent.remember(s, there);
    }
    if (own > SETTLED * floor || own < floor / SETTLED) {
      Map<String, Double> there = new HashMap<>();
      Descent.remember(s, there);
      s = method.solve(Descent.startedFrom(model, there), model.residuals(own, 1));
    }
    return Candidate.of(model, s, 1, noiseScale);
  }

  /**
   * The same model with small departures, as widely spread as the data ask for.
   *
   * @param noiseScale factor on the points' standard deviations
   */
  Candidate departing(Candidate c, double noiseScale) {
    JobModel narrow = departed(c, LEAST_DEPARTURE);
    double spread = Math.min(askedFor(spreads(narrow, c, noiseScale)), ORDINARY_DEPARTURE);
    return refit(c, departed(c, spread), c.evidence().floor(), noiseScale);
  }

  /**
   * The same model with departures such as metal makes that it does not know; empty where the data
   * do not ask for any, or it does not come near {@code rival}.
   *
   * @param noiseScale factor on the points' standard deviations
   * @param rival the best so far
   */
  Optional<Candidate> odd(Candidate c, double noiseScale, Optional<Candidate> rival) {
    SpreadEvidence spreads = spreads(departed(c, LEAST_DEPARTURE), c, noiseScale);
    double asked = askedFor(spreads);
    // Two coils are met with these departures only.
    if (c.passes()
        && c.model().coil().innerNodes() == 0
        && spreads.minusTwiceLog(ODD_DEPARTURE) > spreads.minusTwiceLog(asked) + CANNOT_WIN) {
      return Optional.empty();
    }
    if (asked <= ORDINARY_DEPARTURE && !elaborate(c.model().coil())) {
      return Optional.empty();
    }
    double spread = c.passes() ? Math.max(asked, ODD_DEPARTURE) : ODD_DEPARTURE;
    JobModel wide = departed(c, spread);
    Map<String, Double> place = Descent.place(c);
    if (!c.passes()) {
      Candidate coarse = new Descent(wide, place).end(patient, List.of());
      if (rival.filter(r -> coarse.misfit() > HOPELESS * Math.max(1, r.misfit())).isPresent()) {
        return Optional.empty();
      }
      remember(coarse, place);
    }
    double[] x = Descent.startedFrom(wide, place).stream().mapToDouble(Parameter::start).toArray();
    return Optional.of(
        refit(place, wide, Evidence.floor(wide, x, 1, noiseScale), noiseScale, last));
  }

  /** Whether a model is one of those that stand for more than a textbook coil. */
  public static boolean elaborate(CoilModel coil) {
    return Stream.concat(Stream.of(CoilModel.COVERED_CORE), UPPER.stream())
        .flatMap(u -> Stream.of(u.withDielectricLoss(), u.withConstantPhase()))
        .anyMatch(u -> u.equals(coil) || u.withDepartures().equals(coil));
  }

  /** The spread of departures with the greatest marginal likelihood, if it is surely so. */
  private static double askedFor(SpreadEvidence evidence) {
    double asked = evidence.best(SPREADS);
    boolean surely =
        evidence.minusTwiceLog(asked) < evidence.minusTwiceLog(ORDINARY_DEPARTURE) - SURELY_ODD;
    return surely ? asked : Math.min(asked, ORDINARY_DEPARTURE);
  }

  /** How likely departures of any spread are, seen from a fit. */
  private static SpreadEvidence spreads(JobModel narrow, Candidate c, double noiseScale) {
    List<Parameter> parameters = Descent.startedFrom(narrow, Descent.place(c));
    double[] x = parameters.stream().mapToDouble(Parameter::start).toArray();
    Solution here =
        LeastSquares.at(parameters, narrow.residuals(c.evidence().floor(), c.step()), x);
    boolean[] correction = new boolean[parameters.size()];
    for (int i = 0; i < correction.length; i++) {
      correction[i] = narrow.is(Role.DEPARTURE, parameters.get(i).name());
    }
    return new SpreadEvidence(parameters, correction, here, noiseScale / Math.sqrt(c.step()));
  }

  private JobModel departed(Candidate c, double spread) {
    Map<String, CoilStart> wide = new HashMap<>();
    starts.forEach((name, start) -> wide.put(name, start.departing(spread)));
    return new JobModel(
        job, c.model().coil().withDepartures(), wide, measured, c.model().latitude());
  }
}
