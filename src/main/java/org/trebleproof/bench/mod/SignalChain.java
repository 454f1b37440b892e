package org.trebleproof.bench.mod;

import java.util.Collections;
import java.util.LinkedHashMap;
import java.util.List;
import java.util.Map;
import java.util.Optional;
import java.util.TreeSet;
import org.trebleproof.bench.FittedParts;
import org.trebleproof.bench.job.Job;
import org.trebleproof.bench.job.Layout;
import org.trebleproof.bench.job.Part;
import org.trebleproof.bench.job.Plan;
import org.trebleproof.bench.job.PlanReader;
import org.trebleproof.bench.job.Setup;
import org.trebleproof.bench.job.Slot;
import org.trebleproof.circuit.CoilModel;
import org.trebleproof.fixture.JsonSection;
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
 * @param findings what a person should be told about where the values come from
 */
public record SignalChain(
    String title,
    Map<String, CoilModel> coils,
    Knowledge knowledge,
    Map<String, Slot> slots,
    Map<String, Layout> layouts,
    String current,
    List<Finding> findings) {

  public SignalChain {
    coils = Collections.unmodifiableMap(new LinkedHashMap<>(coils));
    slots = Collections.unmodifiableMap(new LinkedHashMap<>(slots));
    layouts = Collections.unmodifiableMap(new LinkedHashMap<>(layouts));
    findings = List.copyOf(findings);
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
    for (Setup setup : job.setups().values()) {
      layouts.put(setup.name(), Layout.of(setup));
    }
    for (Map.Entry<String, Plan> plan : job.plans().entrySet()) {
      layouts.put(plan.getKey(), plan.getValue().layout());
      markings.putAll(plan.getValue().parts());
    }
    Knowledge knowledge =
        new Knowledge(
                fitted.names(), fitted.logMean(), fitted.logCovariance(), fitted.paths(), Map.of())
            .and(markings);
    String current = List.copyOf(job.setups().keySet()).get(job.setups().size() - 1);
    return new SignalChain(
        job.title(), coils, knowledge, job.partSlots(), layouts, current, findings);
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
    Plan plan = PlanReader.changed(from, changes, slots, new TreeSet<>(coils.keySet()));
    Map<String, Layout> more = new LinkedHashMap<>(layouts);
    more.put(name, plan.layout());
    return new SignalChain(
        title, coils, knowledge.and(plan.parts()), slots, more, current, findings);
  }
}
