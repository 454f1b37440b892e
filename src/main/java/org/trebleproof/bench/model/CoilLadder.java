package org.trebleproof.bench.model;

import java.util.ArrayList;
import java.util.Comparator;
import java.util.HashMap;
import java.util.LinkedHashMap;
import java.util.List;
import java.util.Map;
import java.util.Optional;
import java.util.stream.Stream;
import org.trebleproof.bench.job.Job;
import org.trebleproof.circuit.CoilModel;
import org.trebleproof.fit.InformationCriterion;
import org.trebleproof.fit.LeastSquares;
import org.trebleproof.fit.Parameter;
import org.trebleproof.fit.ResidualModel;
import org.trebleproof.fit.Solution;
import org.trebleproof.fit.SpreadEvidence;
import org.trebleproof.quantity.Response;

/**
 * Climbs from simple coil models to elaborate ones, only until the residuals pass. First steps use
 * every third point; what survives is refined on all of them.
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

  /**
   * Further diffusion times from which a solid core is tried before anything more elaborate [s].
   */
  private static final double[] CORE_TIMES = {6e-4, 2e-4, 3e-5};

  /**
   * Diffusion times of 5 mm rods [s], radius squared times permeability times conductivity:
   * relative permeability 4 and 2 MS/m for alnico, 50 and 4 MS/m for steel; from memory.
   */
  private static final double ALNICO_TIME = 6e-5;

  private static final double STEEL_TIME = 1.5e-3;

  private static final int COARSE = 3;

  /** Rivals that pass with a chi-square within this factor of the best are refined too. */
  private static final double RIVAL = 1.5;

  /** Simple models whose criterion is within this factor of the best one's are no worse than it. */
  private static final double CONSTANT_PHASE_RIVAL = 3;

  /** How many of the models that do not pass are given a loss of constant phase. */
  private static final int LEADING = 2;

  private static final List<CoilModel> LOWER =
      List.of(CoilModel.LOSS_RESISTOR, CoilModel.SOLID_CORE, CoilModel.SPLIT_INDUCTANCE);
  private static final List<CoilModel> UPPER =
      List.of(
          CoilModel.COVERED_CORE,
          CoilModel.TWO_CORES,
          CoilModel.TWO_CORES_COVERED,
          CoilModel.TWO_COILS);

  private final Job job;
  private final Map<String, Response> measured;
  private final Map<String, CoilStart> starts;

  /**
   * Relative standard deviations granted in turn. Sums of parts are known far better than the
   * parts, so the minimum lies in a narrow bent valley; coming down through wide ones first lets
   * the markings settle the place along the valley before the data fix the place across it.
   */
  private static final double[] DESCENT = {1e-2, 1e-3, 1e-4};

  private static final LeastSquares ROUGH = new LeastSquares(1e-2, 25);
  private final LeastSquares quick = new LeastSquares(1e-4, 30);
  private final LeastSquares last = new LeastSquares(1e-5, 15);

  /** For models whose parts stand in for each other. */
  private static final LeastSquares WINDING = LeastSquares.alongValleys(1e-2, 25);

  private final LeastSquares patient = LeastSquares.alongValleys(1e-4, 120);

  public CoilLadder(Job job, Map<String, Response> measured) {
    this.job = job;
    this.measured = measured;
    this.starts = CurveStart.of(job, measured);
  }

  /** The best of the plain models, on every third point. */
  public Candidate plain() {
    List<Candidate> tried = new ArrayList<>();
    Map<String, Double> warm = new HashMap<>();
    for (CoilModel coil : lower()) {
      tried.add(coarse(coil.withDielectricLoss(), warm));
      remember(best(tried), warm);
    }
    return best(tried);
  }

  /** Only a pickup of two coils has the junction that a tap grounds. */
  private boolean tapped() {
    return job.setups().values().stream().anyMatch(s -> s.extras().tapped());
  }

  private List<CoilModel> lower() {
    return tapped() ? List.of(CoilModel.TWO_COILS) : LOWER;
  }

  /** All models tried, best first; the first one, and every rival close to it, uses all points. */
  List<Candidate> climb() {
    List<Candidate> tried = new ArrayList<>();
    Map<String, Double> warm = new HashMap<>();
    boolean tapped = tapped();
    for (CoilModel coil : lower()) {
      tried.add(coarse(coil.withDielectricLoss(), warm));
      remember(best(tried), warm);
    }
    for (double time : tapped ? new double[0] : CORE_TIMES) {
      if (best(tried).reducedChiSquare() < PASS) {
        break;
      }
      tried.add(restarted(time));
      remember(best(tried), warm);
    }
    if (best(tried).reducedChiSquare() > PASS) {
      tried.addAll(withConstantPhase(tried));
    }
    for (CoilModel coil : tapped ? List.<CoilModel>of() : UPPER) {
      boolean passes = best(tried).reducedChiSquare() < PASS;
      // What it takes more than a textbook coil to explain may as well be two coils.
      boolean rival = coil.innerNodes() > 0 && elaborate(best(tried).model().coil());
      if (passes && !rival) {
        continue;
      }
      remember(best(tried), warm);
      tried.add(coarse(coil.withDielectricLoss(), warm));
    }
    if (best(tried).reducedChiSquare() > PASS) {
      tried.sort(Comparator.comparingDouble(Candidate::criterion));
      List<Candidate> leading = new ArrayList<>(tried.subList(0, Math.min(LEADING, tried.size())));
      // Two coils may be told from others only where both kinds of loss and departures are tried.
      tried.stream()
          .filter(c -> c.model().coil().innerNodes() > 0)
          .filter(c -> leading.stream().noneMatch(l -> l == c))
          .forEach(leading::add);
      leading.stream()
          .filter(c -> elaborate(c.model().coil()))
          .map(this::withConstantPhase)
          .forEach(tried::add);
    }
    // A criterion from a third of the points is too rough to choose among models that pass.
    Candidate lead = best(tried);
    List<Candidate> refined = new ArrayList<>();
    for (Candidate c : List.copyOf(tried)) {
      boolean passes =
          c.reducedChiSquare() < PASS && c.reducedChiSquare() < RIVAL * lead.reducedChiSquare();
      if (c == lead || passes) {
        tried.removeIf(t -> t == c);
        refined.add(refit(c, 0));
      }
    }
    refined.sort(Comparator.comparingDouble(Candidate::criterion));
    tried.sort(Comparator.comparingDouble(Candidate::criterion));
    refined.addAll(tried);
    return refined;
  }

  private static Candidate best(List<Candidate> tried) {
    return tried.stream().min(Comparator.comparingDouble(Candidate::criterion)).orElseThrow();
  }

  /**
   * The simple models again, with a dielectric loss of constant phase. Which kind of loss a coil
   * has is told only under the right model of its metal, so every rival is given the chance.
   */
  private List<Candidate> withConstantPhase(List<Candidate> tried) {
    Map<CoilModel, Candidate> rivals = new LinkedHashMap<>();
    double worst = CONSTANT_PHASE_RIVAL * best(tried).criterion();
    tried.stream()
        .filter(c -> c.criterion() < worst)
        .sorted(Comparator.comparingDouble(Candidate::criterion))
        .forEach(c -> rivals.putIfAbsent(c.model().coil(), c));
    return rivals.values().stream().map(this::withConstantPhase).toList();
  }

  private Candidate withConstantPhase(Candidate c) {
    Map<String, Double> place = new HashMap<>();
    remember(c, place);
    CoilModel coil = c.model().coil().withConstantPhase();
    JobModel model = new JobModel(job, coil, starts, measured);
    return descended(model, place, elaborate(coil) ? patient : quick);
  }

  private static void remember(Candidate c, Map<String, Double> warm) {
    for (int i = 0; i < c.solution().x().length; i++) {
      warm.put(c.model().parameters().get(i).name(), c.solution().x()[i]);
    }
  }

  /**
   * A solid core afresh from another diffusion time: steel and alnico lie a factor of ten apart.
   */
  private Candidate restarted(double coreTime) {
    JobModel model = new JobModel(job, CoilModel.SOLID_CORE.withDielectricLoss(), starts, measured);
    Map<String, Double> place = new HashMap<>();
    for (Parameter p : model.parameters()) {
      if (p.name().endsWith(".coreTime")) {
        place.put(p.name(), Math.log(coreTime));
      }
    }
    return descended(model, place, quick);
  }

  private Candidate coarse(CoilModel coil, Map<String, Double> warm) {
    JobModel model = new JobModel(job, coil, starts, measured);
    List<Candidate> tried = new ArrayList<>();
    Map<String, Double> from = elaborate(coil) ? plausible(model, warm) : warm;
    for (Map<String, Double> place : places(model, from)) {
      tried.add(descended(model, place, elaborate(coil) ? patient : quick));
      if (best(tried).reducedChiSquare() < PASS) {
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
      return java.util.Arrays.stream(UNEQUAL_CAPACITANCE)
          .mapToObj(ratio -> unequalCoils(model, warm, ratio))
          .toList();
    }
    boolean twoCores =
        model.parameters().stream().anyMatch(p -> p.name().endsWith(".secondCoreTime"));
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
      boolean first = p.name().contains(".coil1.");
      if (!first && !p.name().contains(".coil2.")) {
        continue;
      }
      double share = first ? 1 - SMALLER_COIL : SMALLER_COIL;
      if (p.name().endsWith("nductance") || p.name().endsWith(".resistance")) {
        place.put(p.name(), p.start() + Math.log(2 * share));
      } else if (p.name().endsWith("capacitance")) {
        place.put(p.name(), p.start() + (first ? 0.5 : -0.5) * Math.log(capacitance));
      }
    }
    return place;
  }

  /** Two kinds of core far apart; what simpler models made of the metal is left behind. */
  private static Map<String, Double> alnicoAndSteel(JobModel model, Map<String, Double> warm) {
    Map<String, Double> place = new HashMap<>(warm);
    for (Parameter p : model.parameters()) {
      if (p.name().endsWith("nductance") || p.name().endsWith("Time")) {
        place.put(p.name(), p.start());
      }
      if (p.name().endsWith(".coreTime")) {
        place.put(p.name(), Math.log(ALNICO_TIME));
      } else if (p.name().endsWith(".secondCoreTime")) {
        place.put(p.name(), Math.log(STEEL_TIME));
      }
    }
    return place;
  }

  private static Candidate descended(
      JobModel model, Map<String, Double> warm, LeastSquares method) {
    Map<String, Double> place = new HashMap<>(warm);
    for (double floor : DESCENT) {
      LeastSquares rough = elaborate(model.coil()) ? WINDING : ROUGH;
      remember(fit(model, rough, floor, COARSE, startedFrom(model, place)), place);
    }
    return fit(model, method, 0, COARSE, startedFrom(model, place));
  }

  private static List<Parameter> startedFrom(JobModel model, Map<String, Double> warm) {
    return model.parameters().stream()
        .map(p -> warm.containsKey(p.name()) ? p.startedAt(warm.get(p.name())) : p)
        .toList();
  }

  /** The same model on all points, granting every point this relative standard deviation. */
  public Candidate refit(Candidate c, double floor) {
    Map<String, Double> warm = new HashMap<>();
    remember(c, warm);
    LeastSquares method = elaborate(c.model().coil()) ? patient : last;
    return fit(c.model(), method, floor, 1, startedFrom(c.model(), warm));
  }

  /**
   * The same model with small departures, as widely spread as the data ask for; empty where it does
   * not come near {@code rival}.
   *
   * @param noiseScale factor on the points' standard deviations
   * @param rival the best so far
   */
  Optional<Candidate> departing(Candidate c, double noiseScale, Optional<Candidate> rival) {
    Map<String, Double> warm = new HashMap<>();
    remember(c, warm);
    JobModel narrow = departed(c, LEAST_DEPARTURE);
    Candidate undeparted =
        new Candidate(narrow, at(narrow, warm), c.criterion(), c.points(), c.step());
    double spread = askedFor(undeparted, noiseScale);
    boolean odd = spread > ORDINARY_DEPARTURE || elaborate(c.model().coil());
    boolean passes = c.reducedChiSquare() < PASS;
    if (odd) {
      // What is asked for where the data are not met yet is a matter of bends, not of metal.
      spread = passes ? Math.max(spread, ODD_DEPARTURE) : ODD_DEPARTURE;
    }
    JobModel wide = departed(c, spread);
    if (!odd || passes) {
      // The place found without departures is a good one: going down to it again might miss it.
      return Optional.of(fit(wide, odd ? patient : last, 0, 1, startedFrom(wide, warm)));
    }
    for (double floor : DESCENT) {
      remember(fit(wide, WINDING, floor, COARSE, startedFrom(wide, warm)), warm);
    }
    Candidate coarse = fit(wide, patient, 0, COARSE, startedFrom(wide, warm));
    if (rival
        .filter(r -> coarse.reducedChiSquare() > HOPELESS * Math.max(1, r.reducedChiSquare()))
        .isPresent()) {
      return Optional.empty();
    }
    remember(coarse, warm);
    Candidate departed = fit(wide, patient, 0, 1, startedFrom(wide, warm));
    double asked = askedFor(departed, noiseScale);
    if (asked <= spread) {
      return Optional.of(departed);
    }
    remember(departed, warm);
    JobModel wider = departed(c, asked);
    return Optional.of(fit(wider, patient, 0, 1, startedFrom(wider, warm)));
  }

  private static Solution at(JobModel model, Map<String, Double> place) {
    List<Parameter> start = startedFrom(model, place);
    double[] x = start.stream().mapToDouble(Parameter::start).toArray();
    return LeastSquares.at(start, model.residuals(0, 1), x);
  }

  /** Whether a model is one of those that stand for more than a textbook coil. */
  static boolean elaborate(CoilModel coil) {
    return UPPER.stream()
        .flatMap(u -> Stream.of(u.withDielectricLoss(), u.withConstantPhase()))
        .anyMatch(u -> u.equals(coil) || u.withDepartures().equals(coil));
  }

  /** The spread of departures with the greatest marginal likelihood, seen from a fit. */
  private static double askedFor(Candidate c, double noiseScale) {
    List<Parameter> parameters = c.solution().parameters();
    boolean[] correction = new boolean[parameters.size()];
    for (int i = 0; i < correction.length; i++) {
      correction[i] = parameters.get(i).name().contains("departure");
    }
    SpreadEvidence evidence = new SpreadEvidence(parameters, correction, c.solution(), noiseScale);
    double asked = evidence.best(SPREADS);
    boolean surely =
        evidence.minusTwiceLog(asked) < evidence.minusTwiceLog(ORDINARY_DEPARTURE) - SURELY_ODD;
    return surely ? asked : Math.min(asked, ORDINARY_DEPARTURE);
  }

  private JobModel departed(Candidate c, double spread) {
    Map<String, CoilStart> wide = new HashMap<>();
    starts.forEach((name, start) -> wide.put(name, start.departing(spread)));
    return new JobModel(job, c.model().coil().withDepartures(), wide, measured);
  }

  private static Candidate fit(
      JobModel model, LeastSquares method, double floor, int step, List<Parameter> start) {
    ResidualModel residuals = model.residuals(floor, step);
    Solution s = method.solve(start, residuals);
    // Criteria of thinned and full fits are compared with each other: put them on one scale.
    double criterion =
        InformationCriterion.schwarz(
            s.dataChiSquare() * step + s.priorChiSquare(), start.size(), residuals.size() * step);
    return new Candidate(model, s, criterion, residuals.size(), step);
  }
}
