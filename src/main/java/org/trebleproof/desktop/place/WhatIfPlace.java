package org.trebleproof.desktop.place;

import java.util.Map;
import java.util.Optional;
import javafx.scene.Node;
import javafx.scene.control.Label;
import javafx.scene.layout.GridPane;
import javafx.scene.layout.VBox;
import org.trebleproof.bench.answer.Rows;
import org.trebleproof.bench.mod.guitar.SignalChain;
import org.trebleproof.bench.mod.predict.Prediction;
import org.trebleproof.desktop.circuit.WhatIfPanel;
import org.trebleproof.desktop.place.piece.HeldPlayingBar;
import org.trebleproof.desktop.place.piece.Lettering;
import org.trebleproof.desktop.place.piece.SteadyRoom;
import org.trebleproof.desktop.plot.PlotFrame;
import org.trebleproof.desktop.plot.PlotGroup;
import org.trebleproof.desktop.plot.PlotPane;
import org.trebleproof.desktop.text.Texts;
import org.trebleproof.desktop.work.HeldPlaying;
import org.trebleproof.desktop.work.Loudspeaker;
import org.trebleproof.desktop.work.Trial;
import org.trebleproof.desktop.work.Workbench;
import org.trebleproof.quantity.Estimate;
import org.trebleproof.report.page.PredictionPlots;
import org.trebleproof.report.words.PredictionText;

/** The next mod: the guitar as a circuit to be changed, and what the change would do. */
public final class WhatIfPlace extends Place {

  /** Share of the height in sight that a plot takes at first, the circuit above it. */
  private static final double LEVELS = 0.38;

  private final Workbench bench;
  private final Trial trial;
  private final PlotGroup group;
  private final WhatIfPanel panel;
  private final SteadyRoom sentence = new SteadyRoom(140, "verdict-line");
  private final SteadyRoom standing = new SteadyRoom(40, "faint");
  private final Label stale = Lettering.styled(Texts.of("whatif.stale"), "stale");
  private final VBox outcome = new VBox();
  private PlotPane difference;
  private PlotFrame differenceFrame;

  /**
   * The trial of a bench.
   *
   * @param listen leads to where it is heard
   */
  public WhatIfPlace(
      Workbench bench, Trial trial, HeldPlaying playing, Loudspeaker loudspeaker, Runnable listen) {
    super("what-if-place");
    this.bench = bench;
    this.trial = trial;
    group = plotsOf(bench);
    bench.jobsProperty().addListener(o -> sentence.forget());
    panel = new WhatIfPanel(group);
    panel.framePlotBy(plot -> new PlotFrame(plot, this, share("levels", LEVELS)));
    panel.setId("what-if");
    outcome.getStyleClass().add("page-part");
    panel.putUnderPlot(
        new HeldPlayingBar(
            playing,
            loudspeaker,
            Lettering.button(Texts.of("whatif.listen"), listen),
            Lettering.button(Texts.of("whatif.reset"), () -> trial.change(Map.of()))));
    panel.changesProperty().addListener((o, old, now) -> trial.change(now));
    trial.chainProperty().addListener((o, old, now) -> showChain(now));
    trial
        .changesProperty()
        .addListener(
            (o, old, now) -> {
              if (!panel.changesProperty().get().equals(now)) {
                panel.setChanges(now);
              }
            });
    trial.triedProperty().addListener((o, old, now) -> showOutcome());
    trial.problemProperty().addListener((o, old, now) -> showOutcome());
    bench.workingProperty().addListener((o, old, now) -> showStale());
    bench.problemProperty().addListener((o, old, now) -> showStale());
    standing.hold(stale);
    showStale();
    showChain(trial.chainProperty().get());
  }

  private void showStale() {
    stale.setVisible(bench.workingProperty().get() || bench.problemProperty().get().isPresent());
  }

  private void showChain(Optional<SignalChain> chain) {
    if (chain.isEmpty()) {
      write(
          Lettering.styled(Texts.of("whatif.title"), "lead"),
          Lettering.text(Texts.of("whatif.empty")));
      return;
    }
    panel.tell(bench.verdictProperty().get().map(v -> v.result().rows()).orElse(Rows.NONE));
    panel.show(chain.get(), trial.now().orElseThrow(), trial.changesProperty().get());
    write(standing, sentence, panel, outcome);
    showOutcome();
  }

  private void showOutcome() {
    Optional<String> problem = trial.problemProperty().get();
    Optional<Trial.Tried> tried = trial.triedProperty().get();
    Node words;
    if (problem.isPresent()) {
      words = Lettering.styled(problem.get(), "mistake");
    } else if (tried.isEmpty()) {
      words = Lettering.styled(Texts.of("next.wait"), "verdict-line");
    } else if (tried.get().prediction().changes().isEmpty()) {
      words = Lettering.styled(Texts.of("whatif.nothing"), "verdict-line");
    } else {
      words = Lettering.sentence(PredictionText.headline(tried.get().prediction()), "verdict-line");
    }
    words.setId("what-if-sentence");
    sentence.hold(words);
    if (problem.isPresent() || tried.isEmpty()) {
      outcome.getChildren().clear();
      return;
    }
    Prediction p = tried.get().prediction();
    panel.showPrediction(tried.get().then(), p);
    if (difference == null) {
      difference = new PlotPane(PredictionPlots.difference(p), group);
      difference.getStyleClass().add("difference");
      differenceFrame = new PlotFrame(difference, this, share("difference", LEVELS));
    } else {
      difference.plotProperty().set(PredictionPlots.difference(p));
    }
    if (p.changes().isEmpty()) {
      outcome.getChildren().clear();
    } else {
      outcome.getChildren().setAll(differenceFrame, numbers(p));
    }
  }

  private static GridPane numbers(Prediction p) {
    GridPane grid = new GridPane();
    grid.getStyleClass().add("estimates");
    grid.addRow(
        0,
        new Label(""),
        Lettering.faint(Texts.of("whatif.now")),
        Lettering.faint(Texts.of("whatif.then")),
        Lettering.faint(Texts.of("whatif.change")));
    row(
        grid,
        Texts.of("whatif.resonance"),
        p.resonances().hzNow(),
        p.resonances().hzThen(),
        p.resonances().shift());
    row(
        grid,
        Texts.of("whatif.peak"),
        p.resonances().peakNow(),
        p.resonances().peakThen(),
        p.resonances().peakChange());
    for (Prediction.At at : p.levels()) {
      row(
          grid,
          Texts.of("whatif.level", Math.round(at.hz() / 1000)),
          Optional.of(at.now()),
          Optional.of(at.then()),
          Optional.of(at.change()));
    }
    return grid;
  }

  private static void row(
      GridPane grid,
      String name,
      Optional<Estimate> now,
      Optional<Estimate> then,
      Optional<Estimate> change) {
    grid.addRow(grid.getRowCount(), Lettering.text(name), cell(now), cell(then), cell(change));
  }

  private static Label cell(Optional<Estimate> estimate) {
    return estimate
        .map(Lettering::estimate)
        .orElseGet(() -> Lettering.faint(Texts.of("whatif.none")));
  }
}
