package org.trebleproof.bench.mod.guitar;

import com.fasterxml.jackson.core.JsonFactory;
import com.fasterxml.jackson.core.JsonGenerator;
import com.fasterxml.jackson.core.util.DefaultPrettyPrinter;
import java.io.IOException;
import java.io.StringWriter;
import java.io.UncheckedIOException;
import java.nio.file.Path;
import java.util.ArrayList;
import java.util.EnumMap;
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
import org.trebleproof.quantity.Marking;
import org.trebleproof.quantity.Refusal;

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
    StringWriter text = new StringWriter();
    try (JsonGenerator json = new JsonFactory().createGenerator(text)) {
      json.setPrettyPrinter(new DefaultPrettyPrinter());
      json.writeStartObject();
      json.writeNumberField(JsonFile.VERSION_KEY, 1);
      json.writeStringField("kind", KIND);
      json.writeStringField("title", chain.title());
      writeModel(json, chain);
      json.writeObjectFieldStart("layouts");
      for (var layout : chain.layouts().entrySet()) {
        json.writeFieldName(layout.getKey());
        write(json, layout.getValue());
      }
      json.writeEndObject();
      json.writeStringField("current", chain.current());
      if (!chain.origins().isEmpty()) {
        json.writeObjectFieldStart("plans");
        for (var plan : new TreeMap<>(chain.origins()).entrySet()) {
          json.writeStringField(plan.getKey(), plan.getValue());
        }
        json.writeEndObject();
      }
      if (!chain.celsius().isEmpty()) {
        json.writeObjectFieldStart("celsius");
        for (var pickup : new TreeMap<>(chain.celsius()).entrySet()) {
          json.writeNumberField(pickup.getKey(), pickup.getValue());
        }
        json.writeEndObject();
      }
      if (!chain.rivals().isEmpty()) {
        json.writeArrayFieldStart("rivals");
        for (SignalChain rival : chain.rivals()) {
          json.writeStartObject();
          writeModel(json, rival);
          json.writeEndObject();
        }
        json.writeEndArray();
      }
      json.writeEndObject();
      json.writeRaw('\n');
    } catch (IOException impossible) {
      throw new UncheckedIOException(impossible); // a StringWriter does not fail
    }
    return text.toString();
  }

  /** What one coil model says: the coils, the values and how they hang together. */
  private static void writeModel(JsonGenerator json, SignalChain chain) throws IOException {
    json.writeNumberField("weight", chain.weight());
    json.writeObjectFieldStart("coils");
    for (var coil : chain.coils().entrySet()) {
      json.writeStringField(coil.getKey(), coil.getValue().key());
    }
    json.writeEndObject();
    Knowledge known = chain.knowledge();
    json.writeArrayFieldStart("values");
    for (int i = 0; i < known.names().size(); i++) {
      String name = known.names().get(i);
      json.writeStartObject();
      json.writeStringField("name", name);
      json.writeNumberField("value", Math.exp(known.logMean()[i]));
      if (chain.slots().containsKey(name)) {
        json.writeStringField("slot", chain.slots().get(name).key());
      }
      if (known.markings().containsKey(name)) {
        json.writeNumberField("tolerance", known.markings().get(name).tolerance());
      }
      json.writeStringField("path", known.paths().get(i).name().toLowerCase(Locale.ROOT));
      json.writeEndObject();
    }
    json.writeEndArray();
    json.writeArrayFieldStart("logCovariance");
    for (double[] row : known.logCovariance()) {
      json.writeArray(row, 0, row.length);
    }
    json.writeEndArray();
  }

  private static void write(JsonGenerator json, Layout layout) throws IOException {
    json.writeStartObject();
    json.writeArrayFieldStart("pickups");
    for (String pickup : layout.pickups()) {
      json.writeString(pickup);
    }
    json.writeEndArray();
    json.writeObjectFieldStart("parts");
    for (Slot slot : Slot.values()) {
      if (layout.part(slot).isPresent()) {
        json.writeStringField(slot.key(), layout.part(slot).get());
      }
    }
    json.writeEndObject();
    json.writeObjectFieldStart("pots");
    for (Slot slot : Slot.values()) {
      if (layout.pots().containsKey(slot)) {
        json.writeObjectFieldStart(slot.key());
        json.writeNumberField("rotation", layout.turned(slot).rotation());
        json.writeNumberField("centreRatio", layout.turned(slot).centreRatio());
        json.writeEndObject();
      }
    }
    json.writeEndObject();
    json.writeBooleanField("toneAfterVolume", layout.toneAfterVolume());
    json.writeBooleanField("bleedInSeries", layout.bleedInSeries());
    json.writeStringField("joint", layout.joint().name().toLowerCase(Locale.ROOT));
    json.writeNumberField("secondOutput", layout.secondOutput());
    json.writeNumberField("selector", layout.selector());
    json.writeBooleanField("tapped", layout.tapped());
    json.writeBooleanField("independent", layout.independent());
    json.writeEndObject();
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
    List<String> names = new ArrayList<>();
    List<Double> logs = new ArrayList<>();
    List<Parameter.Path> paths = new ArrayList<>();
    Map<String, Slot> slots = new LinkedHashMap<>();
    Map<String, Marking> markings = new LinkedHashMap<>();
    for (JsonSection entry : top.sections("values")) {
      entry.only(VALUE_KEYS);
      String name = entry.text("name");
      entry.checkNames(List.of(name));
      double value =
          entry.number("value", SMALLEST, name.endsWith("Time") ? LONGEST_TIME : LARGEST);
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
    Map<Slot, String> parts = new EnumMap<>(Slot.class);
    JsonSection partSection = section.section("parts");
    for (String key : partSection.keys()) {
      parts.put(slot(partSection, key, key), partSection.text(key));
    }
    Map<Slot, Layout.Turned> pots = new EnumMap<>(Slot.class);
    JsonSection potSection = section.section("pots");
    for (String key : potSection.keys()) {
      JsonSection pot = potSection.section(key).only(List.of("rotation", "centreRatio"));
      pots.put(
          slot(potSection, key, key),
          new Layout.Turned(pot.number("rotation", 0, 1), pot.number("centreRatio", 0.01, 0.99)));
    }
    return new Layout(
        section.texts("pickups"),
        parts,
        pots,
        section.flag("toneAfterVolume", false),
        section.flag("bleedInSeries", false),
        section.oneOf("joint", List.of("parallel", "series")).equals("series")
            ? Harness.Joint.SERIES
            : Harness.Joint.PARALLEL,
        section.number("secondOutput", -100, 100),
        section.whole("selector", 0, 0, 5),
        section.flag("tapped", false),
        section.flag("independent", false));
  }
}
