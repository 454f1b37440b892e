package org.trebleproof.desktop.place.order;

import java.util.LinkedHashMap;
import java.util.List;
import java.util.Map;
import java.util.Optional;
import javafx.scene.control.Button;
import javafx.scene.control.ToggleButton;
import javafx.scene.layout.FlowPane;
import javafx.scene.layout.HBox;
import javafx.scene.layout.VBox;
import org.trebleproof.desktop.draft.GuitarTemplate;
import org.trebleproof.desktop.draft.JobDraft;
import org.trebleproof.desktop.draft.JobDraft.CaptureLine;
import org.trebleproof.desktop.place.piece.Lettering;
import org.trebleproof.desktop.place.piece.Markings;
import org.trebleproof.desktop.place.piece.ValueField;
import org.trebleproof.desktop.text.Texts;
import org.trebleproof.desktop.work.Workbench;
import org.trebleproof.quantity.MarkedQuantity;

/**
 * What a new job is asked: how it was recorded, which recording is before the mod and which after,
 * which guitar it is, what was changed. Each answer is one click, and an edit like any other; the
 * work order shows the same and has the rest.
 */
public final class BeginSheet extends VBox {

  private static final List<String> KINDS = List.of("strike", "exciter", "series");

  private final Workbench bench;
  private final Map<String, ToggleButton> kinds = new LinkedHashMap<>();
  private final Map<String, ToggleButton> mods = new LinkedHashMap<>();
  private final FlowPane order = row();
  private final ToggleButton lower;
  private final ToggleButton higher;
  private final ValueField resistor;
  private final ValueField fresh;
  private final VBox pair = new VBox();
  private final ToggleButton bare;
  private final HBox through;
  private final VBox change = new VBox();
  private final Button show;

  /**
   * The questions.
   *
   * @param done shows the verdict
   */
  public BeginSheet(Workbench bench, Runnable done) {
    this.bench = bench;
    getStyleClass().add("begin");
    FlowPane how = row();
    for (String kind : KINDS) {
      ToggleButton one =
          toggle(
              "begin-" + kind,
              Texts.of("fixture.kind." + kind),
              () -> bench.edit(Texts.of("edit.fixture"), d -> d.withFixtureKind(kind)));
      kinds.put(kind, one);
      how.getChildren().add(one);
    }
    resistor =
        new ValueField(
                Texts.of("fixture.resistor"),
                Markings.optional(MarkedQuantity.SERIES_RESISTOR),
                text ->
                    bench.edit(
                        Texts.of("edit.value", Texts.of("fixture.resistor")),
                        d -> d.withFixture("seriesResistance", text)))
            .prompt(Texts.of("fixture.resistor.prompt"));
    resistor.field().setId("begin-resistor");
    through = new HBox(Lettering.text(Texts.of("fixture.resistor")), resistor.columns(14));
    through.getStyleClass().add("begin-value");
    lower = guitar("begin-lower", "begin.guitar.lower", GuitarTemplate.LOWER);
    higher = guitar("begin-higher", "begin.guitar.higher", GuitarTemplate.HIGHER);
    FlowPane guitars = row();
    bare =
        toggle(
            "begin-bare",
            Texts.of("begin.guitar.bare"),
            () -> bench.edit(Texts.of("edit.guitar"), GuitarTemplate::bare));
    guitars.getChildren().addAll(lower, higher, bare);
    FlowPane changes = row();
    for (String place : GuitarTemplate.PLACES.keySet()) {
      ToggleButton one =
          toggle(
              "begin-" + place,
              Texts.of("setups." + place),
              () ->
                  bench.edit(
                      Texts.of("edit.changed", Texts.of("setups." + place)),
                      d -> GuitarTemplate.withChange(d, place)));
      mods.put(place, one);
      changes.getChildren().add(one);
    }
    fresh = new ValueField(Texts.of("begin.value"), this::checkFresh, this::takeFresh).columns(8);
    fresh.field().setId("begin-value");
    HBox value = new HBox(Lettering.text(Texts.of("begin.value")), fresh);
    value.getStyleClass().add("begin-value");
    pair.getStyleClass().add("section");
    pair.getChildren().setAll(Lettering.heading(Texts.of("begin.pair")), order);
    change.getStyleClass().add("section");
    change.getChildren().setAll(Lettering.heading(Texts.of("begin.change")), changes, value);
    show = Lettering.mainButton(Texts.of("begin.show"), done);
    show.setId("begin-show");
    getChildren()
        .setAll(
            Lettering.styled(Texts.of("begin.title"), "lead"),
            Lettering.heading(Texts.of("begin.how")),
            how,
            through,
            pair,
            Lettering.heading(Texts.of("begin.guitar")),
            guitars,
            Lettering.faint(Texts.of("begin.guitar.words")),
            change,
            show);
    bench.draftProperty().addListener((o, old, now) -> now.ifPresent(this::show));
    bench.verdictProperty().addListener(o -> offer());
    bench.workingProperty().addListener(o -> offer());
    bench.draftProperty().get().ifPresent(this::show);
    offer();
  }

  private static FlowPane row() {
    FlowPane row = new FlowPane();
    row.getStyleClass().add("buttons");
    return row;
  }

  private static ToggleButton toggle(String id, String words, Runnable answer) {
    ToggleButton one = new ToggleButton(words);
    one.setId(id);
    one.setAccessibleText(words);
    one.setOnAction(e -> answer.run());
    return one;
  }

  private ToggleButton guitar(String id, String words, GuitarTemplate template) {
    return toggle(id, Texts.of(words), () -> bench.edit(Texts.of("edit.guitar"), template::in));
  }

  private void offer() {
    show.setDisable(bench.verdictProperty().get().isEmpty() || bench.workingProperty().get());
  }

  private Optional<String> freshPart() {
    return bench
        .draftProperty()
        .get()
        .flatMap(
            d -> GuitarTemplate.changed(d).flatMap(p -> d.placed(Texts.of("setups.after"), p)));
  }

  private String checkFresh(String text) {
    Optional<JobDraft> job = bench.draftProperty().get();
    return freshPart()
        .flatMap(part -> job.get().parts().stream().filter(p -> p.name().equals(part)).findFirst())
        .map(
            p ->
                (p.kind().equals("cable") ? Markings.lead() : Markings.required(p.quantity()))
                    .apply(text))
        .orElse("");
  }

  private void takeFresh(String text) {
    freshPart()
        .ifPresent(
            part -> bench.edit(Texts.of("edit.value", part), d -> d.withPartValue(part, text)));
  }

  private void show(JobDraft job) {
    kinds.forEach((kind, one) -> one.setSelected(kind.equals(job.fixtureKind())));
    boolean series = job.fixtureKind().equals("series");
    through.setVisible(series);
    through.setManaged(series);
    resistor.show(job.fixtureText("seriesResistance"));
    showPair(job);
    String pot = pot(job);
    lower.setSelected(GuitarTemplate.LOWER.pot().equals(pot));
    higher.setSelected(GuitarTemplate.HIGHER.pot().equals(pot));
    bare.setSelected(GuitarTemplate.isBare(job));
    boolean two =
        job.setups().contains(Texts.of("setups.after"))
            && job.setups().contains(Texts.of("setups.before"));
    change.setDisable(!two || pot.isEmpty());
    Optional<String> changed = two ? GuitarTemplate.changed(job) : Optional.empty();
    mods.forEach((place, one) -> one.setSelected(changed.equals(Optional.of(place))));
    fresh.setDisable(changed.isEmpty());
    fresh.show(freshPart().map(job::valueOfPart).orElse(""));
  }

  private static String pot(JobDraft job) {
    return job.setups().stream()
        .findFirst()
        .flatMap(s -> job.placed(s, "volume"))
        .map(job::valueOfPart)
        .orElse("");
  }

  private void showPair(JobDraft job) {
    List<CaptureLine> some = job.captures();
    boolean asked = some.size() >= 2;
    pair.setVisible(asked);
    pair.setManaged(asked);
    if (!asked) {
      return;
    }
    String one = some.get(0).id();
    String other = some.get(1).id();
    order
        .getChildren()
        .setAll(pair("begin-pair", job, one, other), pair("begin-pair-turned", job, other, one));
  }

  private ToggleButton pair(String id, JobDraft job, String before, String after) {
    ToggleButton button =
        toggle(
            id,
            Texts.of("begin.pair.of", before, after),
            () -> bench.edit(Texts.of("edit.pair"), d -> GuitarTemplate.pair(d, before, after)));
    button.setSelected(
        of(job, before).equals(Texts.of("setups.before"))
            && of(job, after).equals(Texts.of("setups.after")));
    return button;
  }

  private static String of(JobDraft job, String capture) {
    return job.captures().stream()
        .filter(c -> c.id().equals(capture))
        .map(CaptureLine::setup)
        .findFirst()
        .orElse("");
  }

  /** Whether a job is one that is to be asked: new, and not yet told what it is of. */
  public static boolean isFor(JobDraft job) {
    return !job.filed()
        && (job.fixtureKind().isEmpty()
            || job.captures().stream().anyMatch(c -> c.setup().isEmpty()));
  }
}
