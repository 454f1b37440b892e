package org.trebleproof.desktop.circuit;

import java.util.List;
import java.util.Map;
import java.util.Optional;
import java.util.function.Function;
import javafx.application.Platform;
import javafx.beans.property.ReadOnlyObjectProperty;
import javafx.beans.property.ReadOnlyObjectWrapper;
import javafx.scene.Node;
import javafx.scene.control.Label;
import javafx.scene.control.MenuButton;
import javafx.scene.control.MenuItem;
import javafx.scene.control.ScrollPane;
import javafx.scene.layout.BorderPane;
import javafx.scene.layout.HBox;
import javafx.scene.layout.Priority;
import javafx.scene.layout.Region;
import javafx.scene.layout.VBox;
import org.trebleproof.bench.answer.Rows;
import org.trebleproof.bench.job.Layout;
import org.trebleproof.bench.job.Slot;
import org.trebleproof.bench.mod.explain.CauseNames;
import org.trebleproof.bench.mod.guitar.SignalChain;
import org.trebleproof.bench.mod.predict.Prediction;
import org.trebleproof.desktop.plot.PlotGroup;
import org.trebleproof.desktop.plot.PlotPane;
import org.trebleproof.desktop.task.LatestAnswer;
import org.trebleproof.desktop.text.Texts;
import org.trebleproof.quantity.EstimateText;
import org.trebleproof.quantity.Refusal;
import org.trebleproof.quantity.TradeNotation;
import org.trebleproof.report.plot.FrequencyTicks;
import org.trebleproof.report.plot.ValueAxis;
import org.trebleproof.report.schematic.Item;
import org.trebleproof.report.words.Sentence;

/**
 * The guitar as a circuit whose parts can be turned and changed, and the curve that slides along.
 * What the person changed is a map as {@link org.trebleproof.bench.job.PlanReader} takes it, such
 * as {@code volume=500k, toneRotation=0.4}; empty when all is as measured.
 */
public final class WhatIfPanel extends BorderPane {

  private final ReadOnlyObjectWrapper<Map<String, String>> changes =
      new ReadOnlyObjectWrapper<>(this, "changes", Map.of());
  private final CircuitView circuit = new CircuitView(new Hand());
  private final Label words = new Label();
  private final MenuButton offers = new MenuButton(Texts.of("circuit.offers"));
  private final PlotGroup group;
  private final VBox below = new VBox();
  private final LatestAnswer<WhatIf, LiveCurve> curves =
      new LatestAnswer<>("what-if curve", LiveCurve::of, Platform::runLater, this::slide);
  private final LatestAnswer<LightQuestion, LiveCurve.Lit> lights =
      new LatestAnswer<>(
          "what-if share",
          q -> LiveCurve.Lit.of(q.curve(), q.cause()),
          Platform::runLater,
          l -> lit(l));

  private Function<PlotPane, Node> frame = p -> p;
  private PlotPane plot;
  private WhatIf state;
  private Rows verdict = Rows.NONE;
  private LiveCurve curve;
  private Optional<ValueAxis> axis = Optional.empty();
  private Optional<Item> lit = Optional.empty();
  private Optional<LiveCurve.Lit> share = Optional.empty();
  private Optional<Predicted> predicted = Optional.empty();

  private record LightQuestion(LiveCurve curve, String cause) {}

  private record Predicted(Layout then, Prediction prediction) {}

  /** A panel whose plot stands alone. */
  public WhatIfPanel() {
    this(new PlotGroup());
  }

  /** A panel whose plot shares its frequencies and cursors with others. */
  public WhatIfPanel(PlotGroup group) {
    this.group = group;
    getStyleClass().add("what-if");
    ScrollPane scroll = new ScrollPane(circuit);
    scroll.setFitToWidth(true);
    scroll.setFocusTraversable(false);
    scroll.setVbarPolicy(ScrollPane.ScrollBarPolicy.NEVER);
    scroll.getStyleClass().add("circuit-scroll");
    words.setWrapText(true);
    words.setMinHeight(Region.USE_PREF_SIZE);
    words.getStyleClass().add("circuit-words");
    words.setId("what-if-words");
    below.getStyleClass().add("what-if-below");
    HBox.setHgrow(words, Priority.ALWAYS);
    words.setMaxWidth(Double.MAX_VALUE);
    offers.setId("what-if-offers");
    offers.setMinWidth(Region.USE_PREF_SIZE);
    HBox line = new HBox(words, offers);
    line.getStyleClass().add("circuit-line");
    below.getChildren().add(line);
    setTop(scroll);
    setCenter(below);
  }

  /** Says how the plot is framed, before there is one. */
  public void framePlotBy(Function<PlotPane, Node> with) {
    frame = with;
  }

  /** Puts something under the plot. */
  public void putUnderPlot(Node node) {
    below.getChildren().add(node);
  }

  /** Shows a guitar as it is now, with nothing changed. */
  public void show(SignalChain chain, Layout now) {
    show(chain, now, Map.of());
  }

  /** Says what the parts read after a verdict. */
  public void tell(Rows rows) {
    verdict = rows;
  }

  private SaidInscriptions values() {
    return new SaidInscriptions(state.chain(), verdict);
  }

  /** Shows a guitar with changes; without them where it cannot be wired so any more. */
  public void show(SignalChain chain, Layout now, Map<String, String> changed) {
    axis = Optional.empty();
    predicted = Optional.empty();
    share = Optional.empty();
    if (change(() -> WhatIf.of(chain, now, changed)).isPresent()) {
      become(WhatIf.of(chain, now, Map.of()));
    }
  }

  /** Replaces the changes from outside, such as by undo; what cannot be wired is left aside. */
  public void setChanges(Map<String, String> to) {
    if (state == null || to.equals(state.changes())) {
      return;
    }
    change(() -> WhatIf.of(state.chain(), state.now(), to));
  }

  /** What the person would change, in the order it was changed. */
  public ReadOnlyObjectProperty<Map<String, String>> changesProperty() {
    return changes.getReadOnlyProperty();
  }

  /**
   * Gives the curves their bands.
   *
   * @param then the wiring that was predicted; bands of another wiring than is shown wait for it
   */
  public void showPrediction(Layout then, Prediction prediction) {
    predicted = Optional.of(new Predicted(then, prediction));
    draw();
  }

  private interface Change {
    WhatIf made();
  }

  /** Makes a change, or says why it cannot be made; answers what is wrong. */
  private Optional<String> change(Change how) {
    try {
      become(how.made());
      return Optional.empty();
    } catch (Refusal e) {
      words.setText(e.getMessage());
      words.getStyleClass().add("mistake");
      return Optional.of(e.getMessage());
    }
  }

  private void become(WhatIf next) {
    state = next;
    circuit.show(next, values());
    offer();
    say();
    curves.ask(next);
    changes.set(next.changes());
  }

  private void offer() {
    List<PartOffer> all = PartOffer.of(state);
    List<String> shown = offers.getItems().stream().map(MenuItem::getText).toList();
    offers.setVisible(!all.isEmpty());
    if (!shown.equals(all.stream().map(PartOffer::words).toList())) {
      offers.getItems().clear();
      for (PartOffer one : all) {
        MenuItem item = new MenuItem(one.words());
        item.setOnAction(e -> change(() -> one.made(state)));
        offers.getItems().add(item);
      }
    }
  }

  private void slide(LiveCurve next) {
    curve = next;
    draw();
    askLight();
  }

  private void lit(LiveCurve.Lit answer) {
    share = Optional.of(answer);
    draw();
    say();
  }

  private void draw() {
    if (curve == null) {
      return;
    }
    Optional<Prediction> bands =
        predicted.filter(p -> p.then().equals(curve.state().then())).map(Predicted::prediction);
    var description = curve.plot(bands, lightShown(), axis);
    axis = Optional.of(description.axis());
    if (plot == null) {
      plot = new PlotPane(description, group);
      plot.getStyleClass().add("levels");
      below.getChildren().add(1, frame.apply(plot));
    } else {
      plot.plotProperty().set(description);
    }
  }

  /** The share of the part that is lit, if it was worked out for the curve that is shown. */
  private Optional<LiveCurve.Lit> lightShown() {
    return share.filter(
        s -> curve != null && s.state() == curve.state() && cause().equals(Optional.of(s.cause())));
  }

  private Optional<String> cause() {
    return lit.flatMap(
        item ->
            item.kind() == Item.Kind.PICKUP
                ? Optional.of(CauseNames.cause(state.then().pickups().indexOf(item.name())))
                : item.slot().map(CauseNames::cause));
  }

  private void askLight() {
    if (curve != null) {
      cause().ifPresent(c -> lights.ask(new LightQuestion(curve, c)));
    }
  }

  private void say() {
    words.getStyleClass().remove("mistake");
    if (state == null) {
      return;
    }
    if (lit.isEmpty()) {
      words.setText(Texts.of("circuit.help"));
      return;
    }
    String part = new PartWords(state, values()).of(lit.get());
    words.setText(
        Texts.minus(Sentence.of(part) + lightShown().map(s -> " " + takes(s)).orElse("")));
  }

  private static String takes(LiveCurve.Lit lit) {
    return Texts.of(
        "circuit.takes",
        lit.cause(),
        EstimateText.full(lit.share().there()),
        FrequencyTicks.text(lit.hz()));
  }

  /** What the hand does to the parts. */
  private final class Hand implements PartActions {

    @Override
    public void turn(Slot pot, double rotation) {
      change(() -> state.turned(pot, rotation));
    }

    @Override
    public void scale(Slot slot, double from, double factor) {
      change(() -> state.scaled(slot, from, factor));
    }

    @Override
    public void step(Slot slot, boolean up) {
      change(() -> state.stepped(slot, up));
    }

    @Override
    public void type(PartNode part) {
      part.slot()
          .ifPresent(
              slot ->
                  circuit.type(
                      part,
                      TradeNotation.print(state.value(slot), slot.quantity().unit(), 3),
                      text -> change(() -> state.typed(slot, text))));
    }

    @Override
    public void restore(Slot slot) {
      change(() -> state.asNow(slot));
    }

    @Override
    public void light(Optional<Item> item) {
      lit = item.or(circuit::chosen);
      say();
      draw();
      askLight();
    }
  }
}
