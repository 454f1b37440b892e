package org.trebleproof.bench.mod.guitar;

import java.nio.file.Path;
import java.util.ArrayList;
import java.util.HashSet;
import java.util.LinkedHashMap;
import java.util.List;
import java.util.Locale;
import java.util.Map;
import java.util.Set;
import java.util.TreeMap;
import org.trebleproof.bench.job.Layout;
import org.trebleproof.bench.job.Slot;
import org.trebleproof.circuit.CoilModel;
import org.trebleproof.circuit.Harness;
import org.trebleproof.fit.Parameter;
import org.trebleproof.json.JsonFile;
import org.trebleproof.json.JsonSection;
import org.trebleproof.json.JsonWriter;
import org.trebleproof.quantity.Marking;
import org.trebleproof.quantity.Refusal;
import org.trebleproof.quantity.Unit;

/**
 * A guitar kept for later: the values with their covariance, the coils' models and the wirings. The
 * file says {@code "kind": "guitar"}.
 */
public final class ChainFile {
  private static final String KIND = "guitar";
  private static final List<String> KEYS =
      List.of(
          JsonFile.VERSION_KEY,
          "kind",
          "title",
          "coils",
          "values",
          "logCovariance",
          "layouts",
          "current",
          "plans",
          "weight",
          "rivals",
          "celsius");
  private static final List<String> RIVAL_KEYS =
      List.of("weight", "coils", "values", "logCovariance");
  private static final List<String> VALUE_KEYS =
      List.of("name", "value", "slot", "tolerance", "path");
  private static final List<String> LAYOUT_KEYS =
      List.of(
          "pickups",
          "parts",
          "pots",
          "toneAfterVolume",
          "bleedInSeries",
          "joint",
          "secondOutput",
          "selector",
          "tapped",
          "independent");

  /** No part and no coil is smaller or larger, in SI units; times of metal are below a second. */
  private static final double SMALLEST = 1e-18;

  private static final double LARGEST = 1e12;
  private static final double LONGEST_TIME = 1;

  /** Of a logarithm: a factor of a hundred. A value known no better is not known. */
  private static final double LARGEST_SPREAD = Math.log(100);

  private static final double ROUNDING = 1e-6;

  /** Temperatures at which anybody reads a coil [°C]. */
  private static final double COLDEST = -40;

  private static final double WARMEST = 90;

  private ChainFile() {}

  /** Whether a file says that it is one of these; false for anything that cannot be read. */
  public static boolean isOne(Path file) {
    try {
      JsonSection top = JsonFile.read(file, "file", Refusal::new);
      return top.has("kind") && top.isText("kind") && top.text("kind").equals(KIND);
    } catch (Refusal e) {
      return false;
    }
  }

  /** The file's text, ending in a line feed. */
  public static String text(SignalChain chain) {
    return JsonWriter.file(json -> write(json, chain));
  }

  private static void write(JsonWriter json, SignalChain chain) {
    json.object();
    json.number(JsonFile.VERSION_KEY, 1);
    json.text("kind", KIND);
    json.text("title", chain.title());
    writeModel(json, chain);
    json.object("layouts");
    for (var layout : chain.layouts().entrySet()) {
      json.key(layout.getKey());
      write(json, layout.getValue());
    }
    json.end();
    json.text("current", chain.current());
    if (!chain.origins().isEmpty()) {
      json.object("plans");
      for (var plan : new TreeMap<>(chain.origins()).entrySet()) {
        json.text(plan.getKey(), plan.getValue());
      }
      json.end();
    }
    if (!chain.celsius().isEmpty()) {
      json.object("celsius");
      for (var pickup : new TreeMap<>(chain.celsius()).entrySet()) {
        json.number(pickup.getKey(), pickup.getValue());
      }
      json.end();
    }
    if (!chain.rivals().isEmpty()) {
      json.array("rivals");
      for (SignalChain rival : chain.rivals()) {
        json.object();
        writeModel(json, rival);
        json.end();
      }
      json.end();
    }
    json.end();
  }

  /** What one coil model says: the coils, the values and how they hang together. */
  private static void writeModel(JsonWriter json, SignalChain chain) {
    json.number("weight", chain.weight());
    json.object("coils");
    for (var coil : chain.coils().entrySet()) {
      json.text(coil.getKey(), coil.getValue().key());
    }
    json.end();
    Knowledge known = chain.knowledge();
    json.array("values");
    for (int i = 0; i < known.names().size(); i++) {
      String name = known.names().get(i);
      json.object();
      json.text("name", name);
      json.number("value", Math.exp(known.logMean()[i]));
      if (chain.slots().containsKey(name)) {
        json.text("slot", chain.slots().get(name).key());
      }
      if (known.markings().containsKey(name)) {
        json.number("tolerance", known.markings().get(name).tolerance());
      }
      json.text("path", known.paths().get(i).name().toLowerCase(Locale.ROOT));
      json.end();
    }
    json.end();
    json.array("logCovariance");
    for (double[] row : known.logCovariance()) {
      json.numbers(row);
    }
    json.end();
  }

  private static void write(JsonWriter json, Layout layout) {
    json.object();
    json.texts("pickups", layout.pickups());
    json.object("parts");
    for (Slot slot : Slot.values()) {
      if (layout.part(slot).isPresent()) {
        json.text(slot.key(), layout.part(slot).get());
      }
    }
    json.end();
    json.object("pots");
    for (Slot slot : Slot.values()) {
      if (layout.pots().containsKey(slot)) {
        json.object(slot.key());
        json.number("rotation", layout.turned(slot).rotation());
        json.number("centreRatio", layout.turned(slot).centreRatio());
        json.end();
      }
    }
    json.end();
    json.flag("toneAfterVolume", layout.toneAfterVolume());
    json.flag("bleedInSeries", layout.bleedInSeries());
    json.text("joint", layout.joint().name().toLowerCase(Locale.ROOT));
    json.number("secondOutput", layout.secondOutput());
    json.number("selector", layout.selector());
    json.flag("tapped", layout.tapped());
    json.flag("independent", layout.independent());
    json.end();
  }

  /**
   * Reads such a file.
   *
   * @throws Refusal if it cannot be used, in one sentence
   */
  public static SignalChain read(Path file) {
    JsonSection top = JsonFile.read(file, "guitar file", Refusal::new).only(KEYS);
    if (!top.text("kind").equals(KIND)) {
      throw top.wrong("kind", "must be \"" + KIND + "\".");
    }
    Map<String, Layout> layouts = new LinkedHashMap<>();
    JsonSection layoutSection = top.section("layouts");
    layoutSection.checkNames(layoutSection.keys());
    String title = top.optionalLine("title").orElseGet(() -> top.text("title"));
    for (String name : layoutSection.keys()) {
      layouts.put(name, layout(layoutSection.section(name).only(LAYOUT_KEYS)));
    }
    String current = top.text("current");
    if (!layouts.containsKey(current)) {
      throw top.wrong("current", "names no layout of this file.");
    }
    Map<String, String> origins = new LinkedHashMap<>();
    if (top.has("plans")) {
      JsonSection plans = top.section("plans");
      for (String plan : plans.keys()) {
        String setup = plans.text(plan);
        if (!layouts.containsKey(plan) || !layouts.containsKey(setup)) {
          throw plans.wrong(plan, "and its setup must be layouts of this file.");
        }
        origins.put(plan, setup);
      }
    }
    List<SignalChain> rivals = new ArrayList<>();
    if (top.has("rivals")) {
      for (JsonSection rival : top.sections("rivals")) {
        rivals.add(model(rival.only(RIVAL_KEYS), title, layouts, current, origins, List.of()));
      }
    }
    SignalChain chain = model(top, title, layouts, current, origins, rivals);
    if (top.has("celsius")) {
      JsonSection temperatures = top.section("celsius").only(List.copyOf(chain.coils().keySet()));
      for (String pickup : temperatures.keys()) {
        chain = chain.at(pickup, temperatures.number(pickup, COLDEST, WARMEST));
      }
    }
    return chain;
  }

  private static SignalChain model(
      JsonSection top,
      String title,
      Map<String, Layout> layouts,
      String current,
      Map<String, String> origins,
      List<SignalChain> rivals) {
    Map<String, CoilModel> coils = new LinkedHashMap<>();
    JsonSection coilSection = top.section("coils");
    coilSection.checkNames(coilSection.keys());
    if (coilSection.keys().isEmpty()) {
      throw top.wrong("coils", "names no pickup: a guitar has one at least.");
    }
    for (String pickup : coilSection.keys()) {
      String key = coilSection.text(pickup);
      coils.put(
          pickup,
          CoilModel.of(key)
              .orElseThrow(
                  () ->
                      coilSection.wrong(
                          pickup, "names " + Refusal.quote(key) + ", which is no coil model.")));
    }
    Set<String> times = new HashSet<>();
    coils.forEach((pickup, coil) -> times.addAll(coil.measuredIn(Unit.SECOND, pickup)));
    List<String> names = new ArrayList<>();
    List<Double> logs = new ArrayList<>();
    List<Parameter.Path> paths = new ArrayList<>();
    Map<String, Slot> slots = new LinkedHashMap<>();
    Map<String, Marking> markings = new LinkedHashMap<>();
    for (JsonSection entry : top.sections("values")) {
      entry.only(VALUE_KEYS);
      String name = entry.text("name");
      entry.checkNames(List.of(name));
      double value = entry.number("value", SMALLEST, times.contains(name) ? LONGEST_TIME : LARGEST);
      if (names.contains(name)) {
        throw entry.wrong("name", "is " + Refusal.quote(name) + " like another value's.");
      }
      names.add(name);
      logs.add(Math.log(value));
      paths.add(
          Parameter.Path.valueOf(
              entry
                  .oneOf("path", List.of("coordinate", "value", "reciprocal"))
                  .toUpperCase(Locale.ROOT)));
      if (entry.has("slot")) {
        slots.put(name, slot(entry, "slot", entry.text("slot")));
      }
      if (entry.has("tolerance")) {
        markings.put(name, new Marking(value, entry.number("tolerance", 0, 10), true));
      }
    }
    Knowledge knowledge =
        new Knowledge(
            names,
            logs.stream().mapToDouble(v -> v).toArray(),
            covariance(top, names.size()),
            paths,
            markings);
    checkLayouts(top, layouts, coils.keySet(), names);
    double weight = top.has("weight") ? top.number("weight", 0, 1) : 1;
    return new SignalChain(
        title, coils, knowledge, slots, layouts, current, origins, List.of(), weight, rivals,
        Map.of());
  }

  private static void checkLayouts(
      JsonSection top, Map<String, Layout> layouts, Set<String> coils, List<String> names) {
    layouts.forEach(
        (layout, wiring) -> {
          if (wiring.pickups().isEmpty()) {
            throw top.wrong(
                "layouts",
                "has no \"pickups\" in " + Refusal.quote(layout) + ": name one that is in coils.");
          }
          for (String pickup : wiring.pickups()) {
            if (!coils.contains(pickup)) {
              throw top.wrong(
                  "layouts",
                  "names the pickup " + Refusal.quote(pickup) + ", which is not in coils.");
            }
          }
          for (Slot slot : Slot.values()) {
            wiring
                .part(slot)
                .filter(part -> !names.contains(part))
                .ifPresent(
                    part -> {
                      throw top.wrong(
                          "layouts",
                          "names the part " + Refusal.quote(part) + ", which is not in values.");
                    });
          }
        });
  }

  private static Slot slot(JsonSection at, String key, String text) {
    for (Slot slot : Slot.values()) {
      if (slot.key().equals(text)) {
        return slot;
      }
    }
    throw at.wrong(key, "names " + Refusal.quote(text) + ", which is no place in a guitar.");
  }

  private static double[][] covariance(JsonSection top, int size) {
    double[][] covariance = new double[size][size];
    if (!(top.content().get("logCovariance") instanceof List<?> rows) || rows.size() != size) {
      throw top.wrong("logCovariance", "needs a row for each value.");
    }
    for (int i = 0; i < size; i++) {
      if (!(rows.get(i) instanceof List<?> row) || row.size() != size) {
        throw top.wrong("logCovariance", "needs a number for each pair of values.");
      }
      for (int j = 0; j < size; j++) {
        if (!(row.get(j) instanceof Number number) || !Double.isFinite(number.doubleValue())) {
          throw top.wrong("logCovariance", "needs numbers throughout.");
        }
        covariance[i][j] = number.doubleValue();
      }
    }
    checkCovariance(top, covariance);
    return covariance;
  }

  /** Variances are no less than nothing, and no two values hang together more than wholly. */
  private static void checkCovariance(JsonSection top, double[][] covariance) {
    for (int i = 0; i < covariance.length; i++) {
      if (!(covariance[i][i] >= 0 && covariance[i][i] <= LARGEST_SPREAD * LARGEST_SPREAD)) {
        throw top.wrong(
            "logCovariance",
            "says that value "
                + (i + 1)
                + " is known no better than to a factor of a hundred, or holds a negative number"
                + " there: keep the guitar anew with --save.");
      }
      for (int j = 0; j < i; j++) {
        double most = Math.sqrt(covariance[i][i] * covariance[j][j]);
        if (Math.abs(covariance[i][j]) > most * (1 + ROUNDING) + Double.MIN_NORMAL
            || Math.abs(covariance[i][j] - covariance[j][i]) > ROUNDING * most) {
          throw top.wrong(
              "logCovariance",
              "does not fit together at values "
                  + (j + 1)
                  + " and "
                  + (i + 1)
                  + ": keep the guitar anew with --save.");
        }
      }
    }
  }

  private static Layout layout(JsonSection section) {
    Layout layout =
        Layout.bare("")
            .withPickups(section.texts("pickups"))
            .withToneAfterVolume(section.flag("toneAfterVolume", false))
            .withBleedInSeries(section.flag("bleedInSeries", false))
            .withJoint(
                section.oneOf("joint", List.of("parallel", "series")).equals("series")
                    ? Harness.Joint.SERIES
                    : Harness.Joint.PARALLEL)
            .withSecondOutput(section.number("secondOutput", -100, 100))
            .withSelector(section.whole("selector", 0, 0, 5))
            .withTapped(section.flag("tapped", false))
            .withIndependent(section.flag("independent", false));
    JsonSection parts = section.section("parts");
    for (String key : parts.keys()) {
      layout = layout.with(slot(parts, key, key), parts.text(key));
    }
    JsonSection pots = section.section("pots");
    for (String key : pots.keys()) {
      JsonSection pot = pots.section(key).only(List.of("rotation", "centreRatio"));
      layout =
          layout.with(
              slot(pots, key, key),
              new Layout.Turned(
                  pot.number("rotation", 0, 1), pot.number("centreRatio", 0.01, 0.99)));
    }
    return layout;
  }
}
