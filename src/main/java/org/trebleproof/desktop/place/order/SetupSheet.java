package org.trebleproof.desktop.place.order;

import java.util.ArrayList;
import java.util.LinkedHashMap;
import java.util.List;
import java.util.Map;
import java.util.Optional;
import javafx.scene.Node;
import javafx.scene.control.CheckBox;
import javafx.scene.control.ComboBox;
import javafx.scene.control.Control;
import javafx.scene.control.Label;
import javafx.scene.control.TitledPane;
import javafx.scene.control.Tooltip;
import javafx.scene.layout.GridPane;
import javafx.scene.layout.HBox;
import javafx.scene.layout.Priority;
import javafx.scene.layout.VBox;
import org.trebleproof.desktop.draft.JobDraft;
import org.trebleproof.desktop.place.piece.Lettering;
import org.trebleproof.desktop.place.piece.Markings;
import org.trebleproof.desktop.place.piece.Named;
import org.trebleproof.desktop.place.piece.ValueField;
import org.trebleproof.desktop.text.Texts;
import org.trebleproof.desktop.work.Workbench;
import org.trebleproof.quantity.MarkedQuantity;

/**
 * One state of the guitar that was recorded: the part in each place, where its knobs stand, how its
 * switches are set. What few guitars have is shown where it is taken, or when it is asked for.
 */
final class SetupSheet extends TitledPane {

  private static final String PICKUP = "pickup";
  private static final String POT = "pot";
  private static final String CAPACITOR = "capacitor";
  private static final String RESISTOR = "resistor";
  private static final String SECOND = "secondPickup";

  /** The places of a setup, each with the kind of part that goes there. */
  private static final Map<String, String> PLACES = new LinkedHashMap<>();

  static {
    PLACES.put(PICKUP, PICKUP);
    PLACES.put("volume", POT);
    PLACES.put("tone", POT);
    PLACES.put("toneCapacitor", CAPACITOR);
    PLACES.put("cable", "cable");
    PLACES.put("bleedCapacitor", CAPACITOR);
    PLACES.put("bleedResistor", RESISTOR);
    PLACES.put("bassCapacitor", CAPACITOR);
    PLACES.put("bassPot", POT);
    PLACES.put("loadCapacitor", CAPACITOR);
    PLACES.put("loadResistor", RESISTOR);
    PLACES.put("tapResistor", RESISTOR);
    PLACES.put(SECOND, PICKUP);
    PLACES.put("secondVolume", POT);
    PLACES.put("secondTone", POT);
    PLACES.put("secondToneCapacitor", CAPACITOR);
  }

  /** Places that most guitars have. */
  private static final List<String> USUAL =
      List.of(PICKUP, "volume", "tone", "toneCapacitor", "cable");

  /** Switches and ways of wiring, each with its words, the usual one first. */
  private static final Map<String, List<String>> CHOICES = new LinkedHashMap<>();

  static {
    CHOICES.put("tonePosition", List.of("before", "after"));
    CHOICES.put("bleedStyle", List.of("parallel", "series"));
    CHOICES.put("tap", List.of("off", "on"));
    CHOICES.put("joint", List.of("parallel", "series"));
    CHOICES.put("phase", List.of("in", "out"));
    CHOICES.put("volumeWiring", List.of("dependent", "independent"));
  }

  /** What makes sense only where all of these places are taken. */
  private static final Map<String, List<String>> NEEDS =
      Map.of(
          "tonePosition", List.of("volume", "tone"),
          "bleedStyle", List.of("bleedCapacitor", "bleedResistor"),
          "joint", List.of(SECOND),
          "phase", List.of(SECOND),
          "secondVolume", List.of(SECOND),
          "secondTone", List.of(SECOND),
          "secondToneCapacitor", List.of(SECOND),
          "volumeWiring", List.of(SECOND, "secondVolume"));

  private static final String NAME = "name";
  private static final String METER = "dcResistance";

  private final Workbench bench;
  private final String setup;
  private final GridPane grid = new GridPane();
  private final CheckBox more = new CheckBox(Texts.of("setups.more"));
  private final Map<String, ComboBox<String>> parts = new LinkedHashMap<>();
  private final Map<String, ComboBox<String>> choices = new LinkedHashMap<>();
  private final Map<String, ValueField> rotations = new LinkedHashMap<>();
  private final Map<String, List<Node>> rows = new LinkedHashMap<>();
  private final ValueField dcResistance;
  private List<String> shown = List.of();
  private boolean showing;

  SetupSheet(Workbench bench, String setup) {
    this.bench = bench;
    this.setup = setup;
    grid.getStyleClass().add("form");
    ValueField naming =
        new ValueField(
            Texts.of("setups.name", setup),
            Markings.name(
                setup, () -> bench.draftProperty().get().map(JobDraft::setups).orElse(List.of())),
            text ->
                bench.edit(
                    Texts.of("edit.renamed", setup, text), d -> d.withSetupRenamed(setup, text)));
    naming.show(setup);
    naming.getStyleClass().add("setup-name");
    addRow(NAME, "setups.name.title", naming);
    PLACES.keySet().forEach(this::addPlace);
    CHOICES.keySet().forEach(this::addChoice);
    dcResistance =
        new ValueField(
                words("dcResistance"),
                Markings.optional(MarkedQuantity.DC_RESISTANCE),
                text ->
                    bench.edit(
                        Texts.of("edit.value", Texts.of("setups.dcResistance")),
                        d -> d.withSetupText(setup, "dcResistance", text)))
            .prompt(Texts.of("setups.dcResistance.prompt"));
    addRow(METER, "setups.dcResistance", dcResistance);
    more.setAccessibleText(Texts.of("setups.place", setup, Texts.of("setups.more")));
    more.selectedProperty().addListener(o -> arrange());
    HBox foot =
        new HBox(
            Lettering.button(
                Texts.of("setups.remove", setup),
                () ->
                    bench.edit(Texts.of("edit.setup.removed", setup), d -> d.withoutSetup(setup))));
    foot.getStyleClass().add("foot");
    HBox.setHgrow(grid, Priority.ALWAYS);
    setContent(new VBox(grid, foot));
    setExpanded(false);
    setAnimated(false);
  }

  /** Opens the sheet with the keyboard on a place, marked as the one that is asked about. */
  void begin(String key) {
    setExpanded(true);
    Control wanted =
        parts.containsKey(key)
            ? parts.get(key)
            : choices.containsKey(key) ? choices.get(key) : parts.get(PICKUP);
    if (!USUAL.contains(key) && rows.containsKey(key)) {
      more.setSelected(true);
    }
    wanted.requestFocus();
    wanted.getStyleClass().remove("wrong");
    wanted.getStyleClass().add("wrong");
    wanted
        .focusedProperty()
        .addListener(
            (o, was, is) -> {
              if (!is) {
                wanted.getStyleClass().remove("wrong");
              }
            });
  }

  private String words(String key) {
    return Texts.of("setups.place", setup, Texts.of("setups." + key));
  }

  private ComboBox<String> box(String key) {
    ComboBox<String> box = new ComboBox<>();
    box.setMaxWidth(Double.MAX_VALUE);
    box.setMinWidth(0);
    box.setId("setup-" + setup + "-" + key);
    box.setAccessibleText(words(key));
    return box;
  }

  private void addPlace(String place) {
    ComboBox<String> box = box(place);
    box.valueProperty()
        .addListener(
            (o, old, now) -> {
              if (!showing && now != null) {
                place(place, now);
              }
            });
    parts.put(place, box);
    if (!PLACES.get(place).equals(POT)) {
      addRow(place, box);
      return;
    }
    ValueField rotation =
        new ValueField(
                Texts.of("setups.rotation.of", setup, Texts.of("setups." + place)),
                SetupSheet::checkRotation,
                text -> turn(place, text))
            .columns(3)
            .prompt(Texts.of("setups.rotation"));
    rotation.field().setId("setup-" + setup + "-" + place + "-rotation");
    rotation.managedProperty().bind(rotation.visibleProperty());
    rotations.put(place, rotation);
    HBox both = new HBox(box, rotation);
    HBox.setHgrow(box, Priority.ALWAYS);
    both.getStyleClass().add("pot-place");
    addRow(place, both);
  }

  private void addChoice(String key) {
    ComboBox<String> box = box(key);
    box.getItems().setAll(CHOICES.get(key));
    box.setConverter(new Named("setups." + key + "."));
    box.valueProperty()
        .addListener(
            (o, old, now) -> {
              if (!showing && now != null) {
                bench.edit(
                    Texts.of("edit.setup.changed", setup, Texts.of("setups." + key)),
                    d -> d.withSetupChoice(setup, key, now, CHOICES.get(key).get(0)));
              }
            });
    choices.put(key, box);
    addRow(key, box);
  }

  private void addRow(String key, Node control) {
    addRow(key, "setups." + key, control);
  }

  private void addRow(String key, String words, Node control) {
    Label title = Lettering.styled(Texts.of(words), "setup-row");
    title.setLabelFor(control);
    GridPane.setHgrow(control, Priority.ALWAYS);
    List<Node> row = List.of(title, control);
    rows.put(key, row);
  }

  /** The name of a part that is made where it is needed. */
  private static String fresh(String place, JobDraft job) {
    String base = Texts.of("setups." + place).toLowerCase(java.util.Locale.ROOT);
    String name = base;
    for (int n = 2; taken(job, name); n++) {
      name = base + " " + n;
    }
    return name;
  }

  private static boolean taken(JobDraft job, String name) {
    return job.parts().stream().anyMatch(p -> p.name().equals(name));
  }

  private void place(String place, String chosen) {
    String kind = PLACES.get(place);
    if (chosen.equals(Texts.of("setups.new"))) {
      bench.edit(
          Texts.of("edit.setup.changed", setup, Texts.of("setups." + place)),
          d -> {
            String name = fresh(place, d);
            String usual = kind.equals(PICKUP) ? "" : Texts.of("parts.usual." + kind);
            return d.withNewPart(name, kind, usual).withPlaced(setup, place, name);
          });
      return;
    }
    String part = chosen.equals(Texts.of("setups.none")) ? "" : chosen;
    bench.edit(
        Texts.of("edit.setup.changed", setup, Texts.of("setups." + place)),
        d -> {
          JobDraft draft = d.withPlaced(setup, place, part);
          if (part.isEmpty()) {
            // What made sense beside it only goes with it.
            for (Map.Entry<String, List<String>> need : NEEDS.entrySet()) {
              if (need.getValue().contains(place)) {
                draft = draft.withPlaced(setup, need.getKey(), "");
              }
            }
          }
          return draft;
        });
  }

  private static String checkRotation(String text) {
    return text.isBlank() || rotation(text).isPresent() ? "" : Texts.of("setups.rotation.wrong");
  }

  /** From per cent, with a point or a comma, to a share. */
  private static Optional<Double> rotation(String text) {
    try {
      double percent = Double.parseDouble(text.replace("%", "").replace(',', '.').strip());
      return percent >= 0 && percent <= 100 ? Optional.of(percent / 100) : Optional.empty();
    } catch (NumberFormatException e) {
      return Optional.empty();
    }
  }

  private void turn(String place, String text) {
    bench.edit(
        Texts.of("edit.setup.changed", setup, Texts.of("setups." + place)),
        d -> d.withRotation(setup, place, rotation(text).orElse(1.0)));
  }

  /** Shows the setup as it is written. */
  void show(JobDraft job) {
    showing = true;
    List<String> wired = new ArrayList<>();
    parts.forEach(
        (place, box) -> {
          List<String> some = new ArrayList<>();
          if (!place.equals(PICKUP)) {
            some.add(Texts.of("setups.none"));
          }
          some.addAll(job.parts(PLACES.get(place)));
          some.add(Texts.of("setups.new"));
          if (!box.getItems().equals(some)) {
            box.getItems().setAll(some);
          }
          Optional<String> part = job.placed(setup, place);
          part.ifPresent(wired::add);
          box.setValue(part.orElse(place.equals(PICKUP) ? null : Texts.of("setups.none")));
        });
    rotations.forEach(
        (place, field) -> {
          double share = job.rotation(setup, place);
          field.show(
              share == 1
                  ? ""
                  : String.format(java.util.Locale.ROOT, "%s %%", trimmed(100 * share)));
          field.setVisible(job.placed(setup, place).isPresent());
        });
    choices.forEach(
        (key, box) -> box.setValue(job.placed(setup, key).orElse(CHOICES.get(key).get(0))));
    dcResistance.show(job.setupText(setup, "dcResistance"));
    setText(setup + ": " + String.join(", ", wired));
    setAccessibleText(getText());
    setTooltip(new Tooltip(getText()));
    showing = false;
    arrange();
  }

  private static String trimmed(double percent) {
    return java.math.BigDecimal.valueOf(percent)
        .setScale(1, java.math.RoundingMode.HALF_EVEN)
        .stripTrailingZeros()
        .toPlainString();
  }

  /** Shows what is taken, and what could be where that is asked for. */
  private void arrange() {
    List<String> wanted = rows.keySet().stream().filter(this::wanted).toList();
    rows.forEach((key, row) -> row.forEach(n -> n.setVisible(wanted.contains(key))));
    if (wanted.equals(shown)) {
      return;
    }
    shown = wanted;
    // A row that is only hidden would leave its gap.
    grid.getChildren().clear();
    for (String key : wanted) {
      grid.addRow(grid.getRowCount(), rows.get(key).get(0), rows.get(key).get(1));
    }
    grid.add(more, 0, grid.getRowCount(), 2, 1);
  }

  private boolean wanted(String key) {
    return key.equals(NAME)
        || key.equals(METER)
        || USUAL.contains(key)
        || taken(key)
        || more.isSelected() && NEEDS.getOrDefault(key, List.of()).stream().allMatch(this::taken);
  }

  private boolean taken(String key) {
    if (choices.containsKey(key)) {
      return !CHOICES.get(key).get(0).equals(choices.get(key).getValue());
    }
    String part = parts.get(key).getValue();
    return part != null && !part.equals(Texts.of("setups.none"));
  }
}
