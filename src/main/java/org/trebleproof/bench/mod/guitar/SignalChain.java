package org.trebleproof.bench.mod.guitar;

import java.util.ArrayList;
import java.util.Collections;
import java.util.HashSet;
import java.util.LinkedHashMap;
import java.util.List;
import java.util.Map;
import java.util.Optional;
import java.util.Set;
import java.util.TreeSet;
import java.util.function.UnaryOperator;
import org.trebleproof.bench.job.Change;
import org.trebleproof.bench.job.Job;
import org.trebleproof.bench.job.Layout;
import org.trebleproof.bench.job.OwnName;
import org.trebleproof.bench.job.Part;
import org.trebleproof.bench.job.Plan;
import org.trebleproof.bench.job.PlanReader;
import org.trebleproof.bench.job.Setup;
import org.trebleproof.bench.job.Slot;
import org.trebleproof.bench.model.FittedParts;
import org.trebleproof.circuit.CoilModel;
import org.trebleproof.json.JsonSection;
import org.trebleproof.quantity.Finding;
import org.trebleproof.quantity.Marking;
import org.trebleproof.quantity.Refusal;

/**
 * A guitar, its lead and its amplifier as far as they are known: from a fitted job, a saved model
 * or numbers typed in.
 *
 * @param title what it is called
 * @param coils model of each pickup by name
 * @param knowledge values of the coils' parameters and of all parts
 * @param slots a slot of its kind for every part that can be named
 * @param layouts wirings by name, as they are or as they are planned
 * @param current name of the layout that the guitar has now
 * @param origins the setup that a plan of its job changes, by the plan's name
 * @param findings what a person should be told about where the values come from
 * @param weight of its coil models among those that the data leave standing
 * @param rivals the same guitar under the other ones; with this one's their weights add up to 1
 * @param celsius how warm each pickup's copper was at the resistance given, where it was read [°C]
 */
public record SignalChain(
    String title,
    Map<String, CoilModel> coils,
    Knowledge knowledge,
    Map<String, Slot> slots,
    Map<String, Layout> layouts,
    String current,
    Map<String, String> origins,
    List<Finding> findings,
    double weight,
    List<SignalChain> rivals,
    Map<String, Double> celsius) {

  /** Name of the wiring that a prediction adds; a setup cannot begin with this sign. */
  public static final String ADDED = OwnName.of("then");

  /** Name of a wiring that was stated on top of a setup. */
  public static final String STATED = OwnName.of("stated");

  /** A guitar whose coil models are not in doubt. */
  public SignalChain(
      String title,
      Map<String, CoilModel> coils,
      Knowledge knowledge,
      Map<String, Slot> slots,
      Map<String, Layout> layouts,
      String current,
      List<Finding> findings) {
    this(
        title, coils, knowledge, slots, layouts, current, Map.of(), findings, 1, List.of(),
        Map.of());
  }

  public SignalChain {
    rivals = List.copyOf(rivals);
    coils = Collections.unmodifiableMap(new LinkedHashMap<>(coils));
    slots = Collections.unmodifiableMap(new LinkedHashMap<>(slots));
    layouts = Collections.unmodifiableMap(new LinkedHashMap<>(layouts));
    origins = Map.copyOf(origins);
    findings = List.copyOf(findings);
    celsius = Map.copyOf(celsius);
  }

  /** What a fit has learned, with the setups and plans of its job. */
  public static SignalChain of(FittedParts fitted, List<Finding> findings) {
    Job job = fitted.job();
    Map<String, Marking> markings = new LinkedHashMap<>();
    Map<String, CoilModel> coils = fitted.coils();
    for (Part part : job.parts().values()) {
      if (part.kind() != Part.Kind.PICKUP) {
        part.marking().ifPresent(m -> markings.put(part.name(), m));
      }
    }
    Map<String, Layout> layouts = new LinkedHashMap<>();
    Map<String, String> origins = new LinkedHashMap<>();
    for (Setup setup : job.setups().values()) {
      layouts.put(setup.name(), Layout.of(setup));
    }
    for (Map.Entry<String, Plan> plan : job.plans().entrySet()) {
      layouts.put(plan.getKey(), plan.getValue().layout());
      markings.putAll(plan.getValue().parts());
      plan.getValue().setup().ifPresent(setup -> origins.put(plan.getKey(), setup));
    }
    Knowledge knowledge =
        new Knowledge(
                fitted.names(), fitted.logMean(), fitted.logCovariance(), fitted.paths(), Map.of())
            .and(markings);
    String current = List.copyOf(job.setups().keySet()).get(job.setups().size() - 1);
    return new SignalChain(
        job.title(),
        coils,
        knowledge,
        job.partSlots(),
        layouts,
        current,
        origins,
        findings,
        fitted.weight(),
        fitted.rivals().stream().map(r -> of(r, findings)).toList(),
        celsius(job));
  }

  /** A pickup's resistance is that of the first setup it is in; its other setups may be warmer. */
  private static Map<String, Double> celsius(Job job) {
    Map<String, Double> celsius = new LinkedHashMap<>();
    Set<String> met = new HashSet<>();
    for (Setup setup : job.setups().values()) {
      if (met.add(setup.pickup())) {
        setup.temperature().ifPresent(t -> celsius.put(setup.pickup(), t.celsius()));
      }
    }
    return celsius;
  }

  /** The same guitar, a pickup's temperature known. */
  public SignalChain at(String pickup, double degrees) {
    Map<String, Double> more = new LinkedHashMap<>(celsius);
    more.put(pickup, degrees);
    return new SignalChain(
        title, coils, knowledge, slots, layouts, current, origins, findings, weight, rivals, more);
  }

  /**
   * The chain with a pickup of another guitar beside its own.
   *
   * @param other that guitar
   * @param pickup its pickup
   * @param name what it is called here
   */
  public SignalChain beside(SignalChain other, String pickup, String name) {
    Map<String, CoilModel> more = new LinkedHashMap<>(coils);
    more.put(name, other.coils().get(pickup));
    Map<String, Double> degrees = new LinkedHashMap<>(celsius);
    other.celsius().forEach((of, value) -> degrees.put(of.equals(pickup) ? name : of, value));
    degrees.keySet().retainAll(more.keySet());
    return new SignalChain(
        title,
        more,
        knowledge.beside(other.knowledge(), other.coils().get(pickup), pickup, name),
        slots,
        layouts,
        current,
        origins,
        findings,
        weight,
        rivals.stream().map(r -> r.beside(other, pickup, name)).toList(),
        degrees);
  }

  /** The same guitar, wired now as a layout of this name is. */
  public SignalChain at(String name) {
    layout(Optional.of(name));
    return with(knowledge, layouts, name, r -> r.at(name));
  }

  /** What it is called, and where that is not plain, how it is wired now. */
  public String heading() {
    if (current.equals(STATED)) {
      return title + ", wired as stated";
    }
    boolean plain = layouts.keySet().stream().filter(name -> !OwnName.is(name)).count() < 2;
    return plain ? title : title + ", wired as in \"" + current + "\"";
  }

  /** The layout of this name; without a name the one the guitar has now. */
  public Layout layout(Optional<String> name) {
    Layout layout = layouts.get(name.orElse(current));
    if (layout == null) {
      throw new Refusal(
          "There is no setup or plan "
              + Refusal.quote(name.orElse(current))
              + JsonSection.nearest(name.orElse(current), layouts.keySet())
                  .map(n -> ": did you mean \"" + n + "\"?")
                  .orElse(": there is " + String.join(", ", layouts.keySet()) + "."));
    }
    return layout;
  }

  /** The chain with a changed layout under a name, and the parts that it needs. */
  public SignalChain with(String name, Layout from, Map<String, String> changes) {
    return with(name, from, read(changes));
  }

  /**
   * Reads what could be changed about this guitar.
   *
   * @throws Refusal in one sentence that names the key
   */
  public List<Change> read(Map<String, String> changes) {
    return PlanReader.read(changes, slots, new TreeSet<>(coils.keySet()));
  }

  /** The chain with a changed layout under a name, and the parts that it needs. */
  public SignalChain with(String name, Layout from, Iterable<Change> changes) {
    return with(name, PlanReader.made(from, changes));
  }

  private SignalChain with(String name, Plan plan) {
    Map<String, Layout> more = new LinkedHashMap<>(layouts);
    more.put(name, plan.layout());
    return with(knowledge.and(plan.parts()), more, current, r -> r.with(name, plan));
  }

  /** The chain with further parts of which the markings are known. */
  public SignalChain and(Map<String, Marking> parts) {
    return with(knowledge.and(parts), layouts, current, r -> r.and(parts));
  }

  private SignalChain with(
      Knowledge known, Map<String, Layout> wired, String now, UnaryOperator<SignalChain> rival) {
    return new SignalChain(
        title,
        coils,
        known,
        slots,
        wired,
        now,
        origins,
        findings,
        weight,
        rivals.stream().map(rival).toList(),
        celsius);
  }

  /** The guitar under every coil model that stands, the likeliest first. */
  public List<SignalChain> models() {
    List<SignalChain> all = new ArrayList<>(List.of(this));
    all.addAll(rivals);
    return all;
  }

  /**
   * The standard deviation of a quantity when the models disagree on it: each model's own spread,
   * and how far each lies from this one, by their weights.
   *
   * @param value what this model says
   * @param sd its own standard deviation
   * @param others value and standard deviation under each rival, in order
   */
  public double spread(double value, double sd, List<double[]> others) {
    double variance = weight * sd * sd;
    for (int i = 0; i < rivals.size(); i++) {
      double off = others.get(i)[0] - value;
      variance += rivals.get(i).weight * (others.get(i)[1] * others.get(i)[1] + off * off);
    }
    return Math.sqrt(variance);
  }
}
